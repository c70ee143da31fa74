use super::outcome::Ended;
use super::reception::{InputArgs, Received, receive};
use super::terminal;
use crate::batch::{Done, Options, assess_one};
use crate::claim::words::{find, folded};
use crate::claim::{Intake, PanelId, PanelKind, Side};
use crate::problem::{Problem, catalogue::output, nearest};
use crate::report::explain::explain;
use crate::report::json::ClaimView;
use clap::Args;

/// Show how the amounts of one claim were made, down to the cells they came from.
#[derive(Debug, Args)]
pub struct ExplainArgs {
    #[command(flatten)]
    input: InputArgs,

    /// The claim, by its key as the sheets write it, or by its vehicle's registration or VIN.
    #[arg(long, value_name = "KEY")]
    claim: String,

    /// Only this panel, as people call it: "left front door", "bonnet".
    #[arg(long, value_name = "NAME")]
    panel: Option<String>,

    /// Print it as JSON: the claim's object of assessments.jsonl.
    #[arg(long)]
    json: bool,
}

/// Runs it.
pub fn run(args: &ExplainArgs) -> anyhow::Result<Ended> {
    let received = receive(&args.input);
    if let Some(lacking) = received.lacking() {
        return super::nothing_done(&lacking, Some(&received), args.json);
    }
    let (number, intake) = match find_claim(&args.claim, received.intakes()) {
        Ok(found) => found,
        Err(problem) => return super::nothing_done(&problem, None, args.json),
    };
    let panels = match args.panel.as_deref().map(|name| find_panels(name, intake)).transpose() {
        Ok(panels) => panels,
        Err(problem) => return super::nothing_done(&problem, None, args.json),
    };
    let options = Options { run_date: args.input.date, threads: None, working: true };
    let done = Done { number, intake, result: assess_one(intake, &received.schedules, options) };
    show(&done, panels.as_deref(), &received, args.json)
}

fn show(
    done: &Done<'_>,
    panels: Option<&[PanelId]>,
    received: &Received,
    json: bool,
) -> anyhow::Result<Ended> {
    let run = received.run();
    if json {
        let mut view = ClaimView::new(done, None, &run);
        if let Some(panels) = panels {
            view.keep_panels(panels);
        }
        let mut bytes = serde_json::to_vec_pretty(&view)?;
        bytes.push(b'\n');
        terminal::print_bytes(&bytes)?;
    } else {
        for problem in done.problems() {
            terminal::tell_problem(problem, run.sources, |place| received.row(place));
        }
        if let Some(subject) = run.subject(done) {
            terminal::print(&explain(&subject, panels))?;
        }
    }
    Ok(if done.result.is_ok() { Ended::Done } else { Ended::Incomplete })
}

/// The claim of a key, compared as keys are: without case, spacing and punctuation; an exact one first.
fn find_claim<'a>(key: &str, intakes: &'a [Intake]) -> Result<(usize, &'a Intake), Problem> {
    let key = key.trim();
    let mut numbered = intakes.iter().enumerate();
    let exact = numbered.clone().find(|(_, intake)| intake.claim.key.text == key);
    let wanted = folded(key);
    let by_key =
        exact.or_else(|| numbered.clone().find(|(_, intake)| folded(&intake.claim.key.text) == wanted));
    by_key.or_else(|| numbered.find(|(_, intake)| is_vehicle(intake, &wanted))).ok_or_else(|| {
        let keys = intakes.iter().map(|intake| intake.claim.key.text.as_str());
        output::no_such_claim(key, &nearest(key, keys))
    })
}

/// Whether a claim's vehicle carries this registration or VIN.
fn is_vehicle(intake: &Intake, wanted: &str) -> bool {
    let vehicle = &intake.claim.vehicle;
    [&vehicle.registration, &vehicle.vin]
        .into_iter()
        .flatten()
        .any(|written| folded(&written.value) == wanted)
}

/// The panels of a claim that a name means: by the name documents use, else by any word for its kind, both sides where
/// none is named.
fn find_panels(name: &str, intake: &Intake) -> Result<Vec<PanelId>, Problem> {
    let mut panels: Vec<PanelId> =
        intake.claim.inspections.iter().flat_map(|i| i.panels.iter().map(|panel| panel.panel)).collect();
    panels.sort_unstable();
    panels.dedup();
    let wanted = folded(name);
    let exact = panels.iter().copied().filter(|panel| folded(&panel.to_string()) == wanted);
    let mut found: Vec<PanelId> = exact.collect();
    if found.is_empty() {
        let (side, part) = split_side(&wanted);
        if let Some(kind) = find::<PanelKind>(part) {
            let is_meant = |panel: &PanelId| panel.kind == kind && (side.is_none() || panel.side == side);
            found = panels.iter().copied().filter(is_meant).collect();
        }
    }
    if found.is_empty() {
        let names: Vec<String> = panels.iter().map(ToString::to_string).collect();
        let mut near = nearest(name, names.iter().map(String::as_str));
        if near.is_empty() {
            near = names.iter().map(String::as_str).collect();
        }
        return Err(output::no_such_panel(&intake.claim.key.text, name, &near));
    }
    Ok(found)
}

/// The side that a folded name begins or ends with, and the rest.
fn split_side(name: &str) -> (Option<Side>, &str) {
    for side in Side::ALL {
        let word = side.name();
        let rest = name
            .strip_prefix(word)
            .and_then(|rest| rest.strip_prefix(' '))
            .or_else(|| name.strip_suffix(word).and_then(|rest| rest.strip_suffix(' ')));
        if let Some(rest) = rest {
            return (Some(*side), rest);
        }
    }
    (None, name)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::claim::{Claim, Inspection, JobKey, KeyKind, PanelCount, PanelKind, Place, SourceId};

    fn intake(key: &str) -> Intake {
        let mut claim = Claim::new(JobKey::new(KeyKind::ClaimNumber, key));
        let panel = |kind, side| PanelCount::new(PanelId::new(kind, side), Place::whole(SourceId(0)));
        claim.inspections.push(Inspection {
            assessor: None,
            date: None,
            location: None,
            pass: None,
            role: None,
            panels: vec![
                panel(PanelKind::Hood, None),
                panel(PanelKind::FrontDoor, Some(Side::Left)),
                panel(PanelKind::FrontDoor, Some(Side::Right)),
            ],
        });
        Intake { claim, problems: Vec::new() }
    }

    #[test]
    fn a_claim_is_found_by_its_key_whatever_its_case_and_punctuation() {
        let intakes = [intake("hc 1"), intake("HC-1"), intake("HC-22")];
        assert_eq!(find_claim("HC-1", &intakes).unwrap().0, 1);
        assert_eq!(find_claim(" Hc/22 ", &intakes).unwrap().0, 2);
    }

    #[test]
    fn a_key_that_no_claim_has_is_told_with_the_nearest() {
        let problem = find_claim("HC-32", &[intake("HC-22")]).unwrap_err();
        assert_eq!(problem.code.id, "no-such-claim");
        assert_eq!(problem.help.as_deref(), Some("did you mean: HC-22"));
    }

    #[test]
    fn a_panel_is_found_with_its_side_before_or_behind_and_both_sides_without() {
        let claim = intake("HC-1");
        let sides = |name: &str| -> Vec<_> {
            find_panels(name, &claim).unwrap().into_iter().map(|panel| panel.side).collect()
        };
        assert_eq!(sides("Hood"), [None]);
        assert_eq!(sides("left front door"), [Some(Side::Left)]);
        assert_eq!(sides("front door, right"), [Some(Side::Right)]);
        assert_eq!(sides("front-door"), [Some(Side::Left), Some(Side::Right)]);
        assert_eq!(find_panels("hod", &claim).unwrap_err().help.as_deref(), Some("did you mean: hood"));
    }
}
