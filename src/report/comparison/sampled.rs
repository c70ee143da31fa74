//! A sample in words.
#![expect(clippy::float_arithmetic, reason = "chances are shown in percent; amounts stay exact")]

use crate::compare::comparison::{Sample, SampleOrder};
use crate::compare::money::ONE_IN;
use crate::compare::sampling::{Severity, Size};

/// Labelled lines: the plan, what it accepts, the cars to count again, what was counted says.
pub fn lines(sample: &Sample, order: &SampleOrder) -> Vec<(&'static str, Vec<String>)> {
    let severity = match order.severity {
        Severity::Normal => "normal",
        Severity::Tightened => "tightened",
    };
    let (level, quality) = (order.level.name(), order.quality.name());
    let plan = match sample.size {
        Size::Sample(plan) => format!(
            "code letter {}: {} of {} cars; accept at {} off or fewer, not at {} or more",
            plan.letter.letter(),
            plan.sample,
            sample.lot,
            plan.accept,
            plan.reject
        ),
        Size::Everything => {
            format!("all {} cars: the batch is no larger than the sample would be", sample.lot)
        }
    };
    let source = "MIL-STD-105E, tables I and II (the same stand in ISO 2859-1)";
    let by = format!("level {level}, {quality} % off is good work, {severity} inspection; {source}");
    let off = format!("a car is off when the gross amounts differ by more than {} %", order.lets_pass);
    let accepts = sample.accepts.iter().map(|(chance, share)| {
        format!("with a chance of {:.0} % where {:.1} % of all cars are off", chance * 100.0, share * 100.0)
    });
    vec![
        ("Plan", vec![plan, by, off]),
        ("Accepts", accepts.collect()),
        ("Count again", cars(sample)),
        ("Beside it", beside(sample)),
        ("So far", so_far(sample)),
    ]
}

fn cars(sample: &Sample) -> Vec<String> {
    let line = |drawn: &crate::compare::comparison::Drawn| match &drawn.counted {
        None => drawn.key.clone(),
        Some((difference, is_off)) => {
            let off = if *is_off { "off" } else { "not off" };
            format!("{}: counted, {off}, {difference} {} gross", drawn.key, difference.currency().code())
        }
    };
    sample.drawn.iter().map(line).collect()
}

fn beside(sample: &Sample) -> Vec<String> {
    let mut lines = Vec::new();
    if !sample.beside.is_empty() {
        lines.push(format!(
            "cars that could move most if every panel were counted one in {ONE_IN} higher or lower; chosen, not drawn, so"
        ));
        lines.push("they say nothing of the batch".to_owned());
    }
    lines.extend(
        sample
            .beside
            .iter()
            .map(|car| format!("{}: {} {} net", car.key, car.could_move, car.could_move.currency().code())),
    );
    lines
}

fn so_far(sample: &Sample) -> Vec<String> {
    let Some(says) = sample.says else { return vec!["none of them was counted again yet".to_owned()] };
    let mut lines =
        vec![format!("{} of {} drawn cars counted again, {} off", says.sample, sample.drawn.len(), says.off)];
    let is_complete = usize::try_from(says.sample) == Ok(sample.drawn.len());
    if is_complete {
        lines.push(format!(
            "of all {} cars {} to {} are off, with 95 % confidence (hypergeometric, exact)",
            says.batch, says.at_least, says.at_most
        ));
    } else {
        lines.push("what it says of all cars can be told when every drawn car was counted".to_owned());
    }
    match sample.accepted {
        Some(true) => lines.push("the batch is accepted".to_owned()),
        Some(false) => {
            lines.push("the batch is not accepted: more are off than the plan lets pass".to_owned());
        }
        None => {}
    }
    lines
}
