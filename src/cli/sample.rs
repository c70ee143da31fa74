use super::heard::Heard;
use super::outcome::Ended;
use super::reception::{InputArgs, receive_for_claims};
use super::screen::block;
use super::terminal;
use crate::compare::comparison::{NoComparison, Options, SampleOrder, compare, sample};
use crate::compare::sampling::{InspectionLevel, QualityLevel, Severity};
use crate::problem::{catalogue::output, visible};
use crate::quantity::{DecimalMark, Percent, parse_decimal};
use crate::report::comparison::json::SampleView;
use crate::report::comparison::sampled;
use clap::Args;

/// Draw the cars that a second person should count, by a published plan, and say what the counts show.
///
/// Anybody can draw the same cars again from the seed. Both parties fix seed and plan before the batch is known. Counts of a
/// second person among the files are read as the recount.
#[derive(Debug, Args)]
pub struct SampleArgs {
    #[command(flatten)]
    input: InputArgs,

    /// What the drawing is repeated by: any text.
    #[arg(long, value_name = "TEXT")]
    seed: String,

    /// Percent of cars off that is still taken for good work: 0.65, 1.0, 1.5, 2.5, 4.0, 6.5 or 10.
    #[arg(long, value_name = "PERCENT", default_value = "4.0", value_parser = quality)]
    quality: QualityLevel,

    /// How much is looked at: I, II, III, or S-1 to S-4 for small samples.
    #[arg(long, value_name = "LEVEL", default_value = "II", value_parser = level)]
    level: InspectionLevel,

    /// Tightened inspection, after batches that were not accepted.
    #[arg(long)]
    tightened: bool,

    /// A car is off when the gross amounts differ by more than so many percent of the first.
    #[arg(long, value_name = "PERCENT", default_value = "5", value_parser = percent)]
    lets_pass: Percent,

    /// So many cars beside the sample, of those counted once, whose recount could move most money.
    #[arg(long, value_name = "N", default_value = "5")]
    beside: u16,

    /// Print the sample as data, for programs.
    #[arg(long)]
    json: bool,
}

fn quality(text: &str) -> Result<QualityLevel, String> {
    let wanted = parse_decimal(text, DecimalMark::Point).ok();
    let is_meant = |known: &&QualityLevel| parse_decimal(known.name(), DecimalMark::Point).ok() == wanted;
    QualityLevel::ALL
        .iter()
        .find(is_meant)
        .filter(|_| wanted.is_some())
        .copied()
        .ok_or_else(|| format!("the tables have {}", QualityLevel::ALL.map(QualityLevel::name).join(", ")))
}

fn level(text: &str) -> Result<InspectionLevel, String> {
    let is_meant = |known: &&InspectionLevel| known.name().eq_ignore_ascii_case(text);
    InspectionLevel::ALL.iter().find(is_meant).copied().ok_or_else(|| {
        format!("the tables have {}", InspectionLevel::ALL.map(InspectionLevel::name).join(", "))
    })
}

/// A percentage that is not below zero, as an argument.
pub fn percent(text: &str) -> Result<Percent, String> {
    let value = parse_decimal(text, DecimalMark::Point).map_err(|_| "write a number such as 5".to_owned())?;
    let percent = Percent::from_decimal(value).map_err(|_| "write a number such as 5".to_owned())?;
    if percent < Percent::default() {
        Err("write a number that is not below zero".to_owned())
    } else {
        Ok(percent)
    }
}

/// Runs it.
pub fn run(args: &SampleArgs) -> anyhow::Result<Ended> {
    let received = receive_for_claims(&args.input, None);
    if let Some(lacking) = received.claimless() {
        return super::nothing_done(&lacking, Some(&received), args.json);
    }
    let order = SampleOrder {
        level: args.level,
        quality: args.quality,
        severity: if args.tightened { Severity::Tightened } else { Severity::Normal },
        seed: args.seed.clone(),
        lets_pass: args.lets_pass,
        beside: args.beside.into(),
        run_date: args.input.date,
    };
    let options = Options { run_date: args.input.date, ..Options::default() };
    // Without a second count there is nothing to say yet; the drawing stands all the same.
    let heard = Heard::new(&received);
    let sampled = match compare(&heard, &received.schedules, &options) {
        Ok(compared) => sample(&heard, &compared.cars, &received.schedules, &order),
        Err(NoComparison::NotRead(problem)) => Err(problem),
        Err(_) => sample(&heard, &[], &received.schedules, &order),
    };
    let sampled = sampled.and_then(|sample| received.claims.check().map(|()| sample));
    let sample = match sampled.and_then(|sample| sample.ok_or_else(output::no_claims)) {
        Ok(sample) => sample,
        Err(problem) => return super::nothing_done(&problem, Some(&received), args.json),
    };
    if args.json {
        let mut bytes = serde_json::to_vec_pretty(&SampleView::new(&sample, &order))?;
        bytes.push(b'\n');
        terminal::print_bytes(&bytes)?;
        return Ok(Ended::Done);
    }
    let mut text = String::new();
    for (label, lines) in sampled::lines(&sample, &order) {
        let lines: Vec<String> = lines.iter().map(|line| visible(line)).collect();
        block(&mut text, label, &lines, terminal::width());
    }
    terminal::print(&text)?;
    Ok(Ended::Done)
}
