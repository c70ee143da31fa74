use super::names::{Once, named};
use super::units::{Sign, Units};
use crate::claim::PanelKind;
use crate::claim::words::find;
use crate::claim::words::folded;
use crate::problem::{Located, Problem, catalogue::schedule as words};
use crate::quantity::{Area, Decimal};
use crate::schedule::raw::{RawPanel, beyond_quantity};
use crate::schedule::{GroupId, Joint, PanelTerms, Plane};

/// More than any outer panel has, in square metres.
const MOST_AREA: i64 = 100;

/// The panels and the groups they are rated as. A panel whose plane or joint could not be read is kept with a stand-in,
/// so that rows which name it are not told as well.
pub(super) fn check(
    raw: &[RawPanel],
    units: &Units,
    problems: &mut Vec<Problem>,
) -> (Vec<PanelTerms>, Vec<String>) {
    let mut groups: Vec<String> = Vec::new();
    let mut panels: Vec<PanelTerms> = Vec::new();
    let mut once = Once::new();
    for row in raw {
        let Some(kind) = named::<PanelKind>("panel", &row.panel, problems) else {
            // Its group is still known by name, so that its rates are not told as well.
            if let Some(group) = &row.rated_as {
                group_of(&mut groups, &group.value);
            }
            continue;
        };
        if !once.note(kind.value, "panel", kind.value.name(), row.panel.place, problems) {
            continue;
        }
        let group = row.rated_as.as_ref().map_or(kind.value.name(), |written| written.value.as_str());
        let plane = row.lies.as_ref().and_then(|written| named::<Plane>("lies", written, problems));
        let joint = row.joined.as_ref().and_then(|written| named::<Joint>("joined", written, problems));
        let floor = row.floor.and_then(|written| units.money("floor", written, Sign::NotNegative, problems));
        let cap = row.cap.and_then(|written| units.money("cap", written, Sign::NotNegative, problems));
        if let (Some(floor), Some(cap)) = (floor, cap)
            && floor.value.minor() > cap.value.minor()
        {
            problems.push(words::floor_above_cap(kind.value.name()).at(floor.place).and(cap.place));
        }
        panels.push(PanelTerms {
            kind: kind.value,
            group: group_of(&mut groups, group),
            plane: plane.unwrap_or(Located::new(Plane::Horizontal, row.place)),
            joint: joint.unwrap_or(Located::new(Joint::Bolted, row.place)),
            class: row.class.clone(),
            area: row.area.and_then(|area| check_area(area, row.in_square_centimetres, problems)),
            floor,
            cap,
            place: row.place,
        });
    }
    (panels, groups)
}

/// The group of a name, which is new when no panel before was rated as it.
fn group_of(groups: &mut Vec<String>, name: &str) -> GroupId {
    let index = groups.iter().position(|group| is_same_group(group, name)).unwrap_or_else(|| {
        groups.push(name.to_owned());
        groups.len() - 1
    });
    // There are fewer groups than kinds of panel.
    GroupId(u16::try_from(index).unwrap_or(u16::MAX))
}

/// Whether two names mean one group: alike but for case and punctuation, or two words for one kind of panel.
pub(super) fn is_same_group(a: &str, b: &str) -> bool {
    folded(a) == folded(b) || find::<PanelKind>(a).is_some_and(|kind| find::<PanelKind>(b) == Some(kind))
}

fn check_area(
    written: Located<Decimal>,
    in_square_centimetres: bool,
    problems: &mut Vec<Problem>,
) -> Option<Located<Area>> {
    let hundredth = Decimal::new(1, 4);
    let metres =
        if in_square_centimetres { written.value.checked_mul(hundredth) } else { Some(written.value) };
    let area = metres.filter(|area| *area > Decimal::ZERO && *area <= Decimal::from(MOST_AREA));
    let Some(area) = area else {
        let why = format!("a panel's area is above nothing and at most {MOST_AREA} square metres");
        let problem = words::out_of_range("area", &why).at(written.place);
        problems.push(problem.written(written.value.normalize().to_string()));
        return None;
    };
    match Area::from_square_metres(area) {
        Ok(area) => Some(Located::new(area, written.place)),
        Err(fault) => {
            let finest = "whole square millimetres";
            problems.push(beyond_quantity("area", written.value, written.place, fault, finest));
            None
        }
    }
}
