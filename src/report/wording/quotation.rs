use super::outcome::date_of;
use super::{amount, date, dents, list, mark, measured, said, sentence, with_where};
use crate::assess::{DateOrigin, Excluded, ExclusionReason, Line, LineKind, MarkAssessment, PanelAssessment};
use crate::claim::{MarkKind, Method, Side};
use crate::quantity::{Date, Money};
use crate::report::Subject;
use crate::report::words::Words;

/// What paintless repair can and cannot do, said before anybody signs. Common practice, no source.
pub(crate) const NO_PROMISE: &str = "Paintless repair works the metal back from behind or pulls it from outside. Small traces \
     can stay visible from some angles, and old or hard paint can crack while the metal moves. No perfect result is \
     promised. If it turns out that a mark cannot be repaired this way, work stops there and you decide what follows.";

/// Said when nothing is painted.
pub fn no_paint_work() -> &'static str {
    "Paint work of any kind."
}

/// What a way of repair includes, as the customer reads it.
pub fn included_method(method: Method, words: &Words) -> String {
    words.text(match method {
        Method::NoRepair => "included-no-repair",
        Method::Paintless => "included-paintless",
        Method::RefinishAfter => "included-paintless-then-refinish",
        Method::Conventional => "included-conventional-repair",
        Method::Replace => "included-replace",
        Method::Refer => "included-refer-to-a-person",
    })
}

/// Until when a quotation holds, and from which day that counts.
pub fn valid_until(until: Date, from: Date, origin: DateOrigin) -> String {
    format!("Valid until {}, counted from the {}, {}.", date(until), date_of(origin), date(from))
}

/// What a customer signs.
pub fn acceptance(gross: Money) -> String {
    format!("I accept this quotation of {} {} with tax and order the work.", amount(gross), gross.currency())
}

/// What is done with a panel and to what: "Left rear van side: 3 dents, crease 85 mm x 6 mm; repaired without paint work."
pub fn included_panel(panel: &PanelAssessment, subject: &Subject<'_>) -> String {
    let mut damage = Vec::new();
    if panel.dents > 0 {
        damage.push(dents(panel.dents));
    }
    for (index, outcome) in panel.marks.iter().enumerate() {
        if !matches!(outcome, MarkAssessment::Counted(_) | MarkAssessment::Excluded) {
            damage.extend(mark(panel, index, subject));
        }
    }
    if damage.is_empty() {
        // Neither dents nor marks: what the limit that decides was crossed by, such as broken paint.
        damage.extend(panel.decided_by.and_then(|index| panel.findings.get(index)).map(measured));
    }
    let mut parts = Vec::new();
    if !damage.is_empty() {
        parts.push(list(&damage));
    }
    parts.push(included_method(panel.method, subject.words));
    format!("{}: {}.", sentence(&panel.panel.to_string()), parts.join("; "))
}

/// The work of the vehicle that a line is charged for, by its labour or its parts: "Take off the headliner."; none for
/// what is no work.
pub fn included_work(line: &Line, subject: &Subject<'_>) -> Option<String> {
    let work = match line.kind {
        LineKind::OperationLabour { operation, panel, side }
        | LineKind::OperationParts { operation, panel, side } => {
            let name = said(&subject.schedule.operations[operation].name);
            with_where(&name, panel, side.map(Side::name))
        }
        LineKind::ItemPrice(index) | LineKind::ItemLabour(index) => {
            said(&subject.claim.items[index].name.value)
        }
        _ => return None,
    };
    Some(format!("{}.", sentence(&work)))
}

/// A mark that is not part of the offer, and why.
pub fn excluded_mark(excluded: &Excluded, subject: &Subject<'_>) -> String {
    let words = subject.words;
    let mark = subject
        .assessment
        .panels
        .iter()
        .find(|panel| panel.panel == excluded.panel)
        .and_then(|panel| mark(panel, excluded.mark, subject))
        .unwrap_or_else(|| words.text("mark"));
    let (panel, reason) = (sentence(&words.panel(excluded.panel)), super::excluded(excluded.reason, words));
    // A mark that is no damage says so by its kind alone.
    let says_it = excluded.reason == ExclusionReason::NotDamage && mark == words.name(MarkKind::NotDamage);
    let key = if says_it { "excluded-alone" } else { "excluded-mark" };
    words.say(key, &[("panel", panel.into()), ("mark", mark.into()), ("reason", reason.into())])
}
