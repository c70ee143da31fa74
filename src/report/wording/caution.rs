use super::said;
use crate::assess::Caution;
use crate::report::Subject;

/// A caution: what it is about, and what to heed and who decides. Common practice, no source; the makers' instructions,
/// local codes and licensed practice always come first, and each says so.
pub fn caution(caution: &Caution, subject: &Subject<'_>) -> (String, String) {
    let (about, text) = match caution {
        Caution::Airbag => (
            "Airbags",
            "Curtain airbags lie behind the headliner and the roof-rail trim, side airbags in seats and doors. Disconnecting, \
             waiting times and refitting follow the vehicle maker's instructions and are for trained people.",
        ),
        Caution::HighVoltage => (
            "High voltage",
            "Isolate the system as the vehicle maker says before working near its cables, and keep heat away from battery \
             packs. This is for people who are trained and licensed for it.",
        ),
        Caution::Calibration => (
            "Cameras and radar",
            "Something that carries or covers a camera or a radar is taken off or replaced. The vehicle maker's \
             instructions say whether it has to be calibrated; the result is recorded at hand-over.",
        ),
        Caution::Structural => (
            "Structure",
            "A welded panel is cut or replaced. The maker's repair procedure, local codes and licensed practice decide how.",
        ),
        Caution::Heat => (
            "Heat",
            "Heat changes high-strength steel and aluminium. The maker's repair procedure decides whether, where and how \
             much.",
        ),
        Caution::Glass => (
            "Glass",
            "Gloves and eye protection near broken or loosened glass; cover what stays in. Bonding and the time before \
             driving follow the makers of glass and adhesive.",
        ),
        Caution::Chemicals => (
            "Solvents and adhesives",
            "Gloves, eye protection and fresh air with degreasers, solvents and adhesives, as their makers' data sheets \
             say.",
        ),
        Caution::Stated(index) => return stated(*index, subject),
    };
    (about.to_owned(), text.to_owned())
}

/// An operation's caution in the schedule's own words.
fn stated(index: usize, subject: &Subject<'_>) -> (String, String) {
    let operation = &subject.schedule.operations[index];
    let text = operation.caution.as_ref().map_or("", |caution| caution.value.as_str());
    (super::sentence(&said(&operation.name)), said(text))
}

/// What stands on every document: whose amounts these are, and who decides what the tool does not.
pub fn standing_caution() -> &'static str {
    "Amounts follow the schedule named here. Rules on total loss, tax and consumers' rights differ by place: local law, \
     local codes and a licensed adjuster decide."
}
