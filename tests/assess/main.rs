//! The assessment of claims that are put together in code: what the page of `src/assess` says, rule by rule, its
//! properties on random claims and schedules, and published values.

// `cfg(test)` says to the lints that these modules are tests, where `unwrap` may stand.
#[cfg(test)]
mod arithmetic;
#[cfg(test)]
mod builder;
#[cfg(test)]
mod cautions;
#[cfg(test)]
mod choosing;
#[cfg(test)]
mod counting;
#[cfg(test)]
mod deciding;
#[cfg(test)]
mod explaining;
#[cfg(test)]
mod factors;
#[cfg(test)]
mod fewest;
#[cfg(test)]
mod lot;
#[cfg(test)]
mod marks;
#[cfg(test)]
mod properties;
#[cfg(test)]
mod published;
#[cfg(test)]
mod random;
#[cfg(test)]
mod random_panels;
#[cfg(test)]
mod rating;
#[cfg(test)]
mod recompute;
#[cfg(test)]
mod recount;
#[cfg(test)]
mod settling;
#[cfg(test)]
mod terms;
#[cfg(test)]
mod titles;
#[cfg(test)]
mod totals;
#[cfg(test)]
mod worked;

use stipple::assess::{Alternative, Assessment, PanelAssessment, Silent, Working, assess};
use stipple::claim::{Claim, Method, PanelId};
use stipple::problem::Problem;
use stipple::schedule::Schedule;

/// Assesses without a recorder and with one, and asserts that nothing but the working differs.
fn try_assess(claim: &Claim, schedule: &Schedule) -> Result<Assessment, Vec<Problem>> {
    let silent = assess(claim, schedule, 0, None, &mut Silent);
    let recorded = assess(claim, schedule, 0, None, &mut Working::default());
    match (&silent, &recorded) {
        (Ok(silent), Ok(recorded)) => assert_eq!(without_steps(silent), without_steps(recorded)),
        (Err(silent), Err(recorded)) => assert_eq!(silent, recorded),
        _ => panic!("the recorder changed whether the claim can be priced"),
    }
    recorded
}

/// Assesses a claim that can be priced.
fn assessed(claim: &Claim, schedule: &Schedule) -> Assessment {
    try_assess(claim, schedule).unwrap_or_else(|problems| panic!("{problems:#?}"))
}

/// The codes of what keeps a claim from being priced.
fn refused(claim: &Claim, schedule: &Schedule) -> Vec<&'static str> {
    match try_assess(claim, schedule) {
        Ok(assessment) => panic!("it was priced at {}", assessment.totals.gross),
        Err(problems) => {
            for problem in &problems {
                assert_eq!(problem.claim.as_deref(), Some(claim.key.text.as_str()), "{problem:?}");
            }
            problems.iter().map(|problem| problem.code.id).collect()
        }
    }
}

/// Everything in an assessment but the numbers of steps.
fn without_steps(assessment: &Assessment) -> String {
    let mut copy = assessment.clone();
    copy.working = None;
    let text = format!("{copy:?}");
    let mut parts = text.split("StepId(");
    let mut kept = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        kept.push_str(part.split_once(')').map_or("", |(_, rest)| rest));
    }
    kept
}

fn panel(assessment: &Assessment, panel: PanelId) -> &PanelAssessment {
    let found = assessment.panels.iter().find(|assessed| assessed.panel == panel);
    found.unwrap_or_else(|| panic!("{panel} was not assessed"))
}

fn way(panel: &PanelAssessment, method: Method) -> &Alternative {
    let found = panel.alternatives.iter().find(|alternative| alternative.method == method);
    found.unwrap_or_else(|| panic!("{} has no {method}", panel.panel))
}

/// The amounts of a panel's way of repair, line by line, as printed.
fn line_amounts(panel: &PanelAssessment, method: Method) -> Vec<String> {
    way(panel, method).lines.iter().map(|line| line.amount.to_string()).collect()
}

/// The paintless amount of a panel, as printed, or why there is none.
fn paintless(assessment: &Assessment, id: PanelId) -> String {
    match way(panel(assessment, id), Method::Paintless).amount {
        Ok(amount) => amount.to_string(),
        Err(why) => format!("{why:?}"),
    }
}
