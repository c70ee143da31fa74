use super::names::{Once, named, named_or};
use super::scopes::Scopes;
use super::units::{Sign, Units};
use crate::claim::words::folded;
use crate::claim::{Access, Method};
use crate::problem::{Problem, catalogue::schedule as words};
use crate::schedule::raw::RawOperation;
use crate::schedule::{LabourClass, Once as Often, Operation};
use std::collections::BTreeMap;

/// Operations in the order of their rows.
pub(super) fn check(
    raw: &[RawOperation],
    units: &Units,
    scopes: &Scopes<'_>,
    problems: &mut Vec<Problem>,
) -> Vec<Operation> {
    let mut once = Once::new();
    let mut operations = Vec::new();
    for row in raw {
        let same = [Some(&row.name), row.panel.as_ref(), row.access.as_ref(), row.method.as_ref()]
            .map(|written| written.map_or(String::new(), |written| folded(&written.value)));
        once.note(same, "operation", &row.name.value, row.name.place, problems);
        operations.extend(check_row(row, units, scopes, problems));
    }
    tell_repeated(&operations, scopes, problems);
    operations
}

fn check_row(
    row: &RawOperation,
    units: &Units,
    scopes: &Scopes<'_>,
    problems: &mut Vec<Problem>,
) -> Option<Operation> {
    let scope = scopes.resolve(row.panel.as_ref(), problems);
    // Nothing written is any; something written that is not known is told and ends the row.
    let access = row.access.as_ref().map(|written| named::<Access>("access", written, problems).ok_or(()));
    let method = row.method.as_ref().map(|written| named::<Method>("method", written, problems).ok_or(()));
    let class = named_or("labour", row.labour.as_ref(), LabourClass::Refit, problems);
    let once = named_or("once per", row.once_per.as_ref(), Often::Vehicle, problems);
    let hours = row.hours.and_then(|written| units.hours("hours", written, problems));
    let parts = row.parts.and_then(|written| units.money("parts", written, Sign::NotNegative, problems));
    if row.sound && row.hours.is_none() && row.parts.is_none() && row.caution.is_none() {
        problems.push(words::idle("the row", "it says neither hours nor parts nor a caution").at(row.place));
    }
    if let (Some(Ok(method)), Some(written)) = (&method, &row.method)
        && matches!(method.value, Method::NoRepair | Method::Refer)
    {
        let why = "no work is done on such a panel";
        problems.push(words::idle("the row", why).at(method.place).written(written.value.clone()));
    }
    Some(Operation {
        name: row.name.value.clone(),
        scope: scope?,
        access: access.transpose().ok()?.map(|access| access.value),
        method: method.transpose().ok()?.map(|method| method.value),
        hours,
        class: class?,
        parts,
        once: once?,
        caution: row.caution.clone(),
        place: row.place,
    })
}

/// One operation named in several rows is charged for each of them, even `once per vehicle`.
fn tell_repeated(operations: &[Operation], scopes: &Scopes<'_>, problems: &mut Vec<Problem>) {
    let mut first: BTreeMap<String, &Operation> = BTreeMap::new();
    for operation in operations.iter().filter(|row| row.once == Often::Vehicle && row.hours.is_some()) {
        let Some(earlier) = first.get(&folded(&operation.name)) else {
            first.insert(folded(&operation.name), operation);
            continue;
        };
        let exclude = earlier.access.is_some()
            && operation.access.is_some()
            && earlier.access != operation.access
            || earlier.method.is_some() && operation.method.is_some() && earlier.method != operation.method;
        if !exclude && scopes.panels.len() > 1 {
            problems.push(words::operation_repeated(&operation.name).at(operation.place).and(earlier.place));
        }
    }
}
