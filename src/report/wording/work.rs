use super::{list, number, said, sentence, so_many, written_mark};
use crate::assess::{Assessment, OpenReason, Outcome, PanelAssessment};
use crate::claim::{Access, Counted, Method, Settlement};
use crate::report::Subject;
use std::fmt::Write as _;

/// What is done before any panel is worked. Common practice, no source.
pub const RECEIVE: &str =
    "Photograph the car as it came, with its warning lamps, and compare it with this order.";
/// On a vehicle with a high-voltage system.
pub const SWITCH_OFF: &str = "Switch the car off as its maker says and keep its key away from it.";
/// Before the lamps are set up.
pub const COVER: &str = "Cover glass, lamps, trim and seats that stay in.";
/// Beside glass.
pub const PROTECT_GLASS: &str = "Put a guard between the tools and the glass.";
/// Before pulling, counting and painting.
pub const DEGREASE: &str = "Wash and degrease; find every dent of the count under the lamp and mark it.";
/// The order of paintless work: common practice, no source.
pub const PULL: &str = "Pull the bulk of the largest dents first.";
/// Likewise.
pub const RELEASE: &str = "Release the high metal around a dent before lifting the rest.";
/// Likewise.
pub const LIFT: &str = "Lift what is left, from the rim inwards.";
/// Likewise.
pub const FINISH: &str = "Finish with finer tools.";
/// Likewise.
pub const LOOK: &str = "Look at it from two directions, under the lamp and in daylight.";
/// Before a new part is painted.
pub const COMPARE_PART: &str = "Compare the new part with the old one before it is painted.";

/// What is checked before the car leaves. Common practice, no source.
pub const HAND_OVER: [&str; 6] = [
    "Every part and trim that came off is back, with new clips where the old ones broke.",
    "Residue of glue, degreaser and polish is removed; drains and seams are clear.",
    "Windows, doors, lids, lamps and locks work; no warning lamp that was not there before.",
    "Bare metal and openings are protected against rust.",
    "Every panel of this order was looked at from two directions; what stays visible is written down.",
    "All tools are counted and out of the car.",
];
/// The last check, beside its caution.
pub const CALIBRATIONS: &str = "Calibrations: done or not needed, and the result is recorded.";

/// How the back of a panel is reached.
pub const fn reach(access: Access) -> &'static str {
    match access {
        Access::Open => "Reach it from behind; the back is open.",
        Access::WindowGap => "Reach it through the window gap.",
        Access::BehindBrace => "Reach it past the brace; do not bend the brace.",
        Access::DoubleSkin => "Reach it between the two skins, through existing openings only.",
        Access::GlueOnly => "Pull from outside only; first try on a small spot whether the paint holds.",
        Access::NoAccess => "There is no access: drill or cut nothing without asking.",
    }
}

/// "52 fine, 34 small; 86 dents in all."
pub fn counted(panel: &PanelAssessment, subject: &Subject<'_>) -> Option<String> {
    if panel.dents == 0 {
        return None;
    }
    let sizes = panel.counts.iter().zip(&subject.schedule.sizes);
    let sizes: Vec<String> = sizes
        .filter(|(count, _)| count.dents() > 0)
        .map(|(count, band)| {
            let about = if matches!(count.count, Counted::Estimated { .. }) { "about " } else { "" };
            format!("{about}{} {}", number(count.dents().into()), said(&band.name))
        })
        .collect();
    Some(format!("{}; {} in all.", sizes.join(", "), super::dents(panel.dents)))
}

/// A mark as it is found on the panel: "3: crease 54 mm x 7 mm, on body line, sharp, access behind brace".
pub fn mark_to_find(panel: &PanelAssessment, mark: usize, shown: usize, subject: &Subject<'_>) -> String {
    let mut out = format!("{shown}: {}", super::mark(panel, mark, subject).unwrap_or_default());
    let Some(written) = written_mark(panel, mark, subject) else { return out };
    let words = [
        written.position.map(|position| format!("on {}", position.value)),
        written.depth.map(|depth| depth.value.to_string()),
        written.access.map(|access| format!("access {}", access.value)),
        written.remark.as_ref().map(|remark| said(&remark.value)),
    ];
    for word in words.into_iter().flatten() {
        let _ = write!(out, ", {word}");
    }
    out
}

/// A panel that waits: what is open, without its amounts.
pub fn waits(panel: &PanelAssessment, subject: &Subject<'_>) -> String {
    let name = sentence(&panel.panel.to_string());
    let deciding = panel.decided_by.and_then(|index| panel.findings.get(index));
    let limit = deciding.map(|finding| said(&subject.schedule.limits[finding.limit].name));
    match (panel.open, limit) {
        (Some(OpenReason::NotPriced(why)), _) => {
            format!(
                "{name}: {}, not priced: {}. Ask before starting.",
                panel.method,
                super::unpriced(why, subject)
            )
        }
        (_, Some(limit)) => format!("{name}: {limit}. A person decides; do nothing before."),
        (_, None) => format!("{name}: a person decides; do nothing before."),
    }
}

/// Why none of it may begin yet, where that is so.
pub fn not_ordered(assessment: &Assessment) -> Option<&'static str> {
    match (assessment.settled.basis, assessment.outcome) {
        (Settlement::TotalLoss | Settlement::TotalLossKept, _) => {
            Some("The claim is settled as a total loss: nothing here is ordered.")
        }
        (Settlement::Cash, _) => Some("The claim is settled in money: nothing here is ordered."),
        (Settlement::Repair, Outcome::ProbableTotalLoss) => {
            Some("A probable total loss: a licensed adjuster decides before any work begins.")
        }
        (Settlement::Repair, _) => None,
    }
}

/// What is done with a panel, as the heading of its work.
pub fn heading(panel: &PanelAssessment) -> String {
    let method = match panel.method {
        Method::Replace => "replace it",
        method => method.name(),
    };
    format!("{}: {method}", sentence(&panel.panel.to_string()))
}

/// Panels that are not worked at all: "Nothing to do on: hood and left fender."
pub fn left_as_they_are(names: &[String]) -> Option<String> {
    let panels = so_many(names.len(), "panel", "panels");
    (!names.is_empty()).then(|| format!("Nothing is done on {panels}: {}.", list(names)))
}
