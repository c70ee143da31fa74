//! Forms of our own to count on: the schedule's bands as columns, panels by body type, words as the reader knows them.
//!
//! Filled once from a schedule; a workbook, a tally sheet for print and a page for a tablet only draw it. What comes
//! back of any of them is read like every other table.

mod gauge;

pub use gauge::{Bar, Circle, Gauge};

use super::comparison::adjudication::size_heading;
use super::run_record::VERSION;
use crate::claim::words::Named;
use crate::claim::{
    Access, BodyType, Cause, Depth, MarkKind, Material, Paint, PanelId, PanelKind, Position, Role, Side,
    Steering, TaxPosition,
};
use crate::schedule::Schedule;
use serde::Serialize;

/// Most dents that one cell takes: the reader takes more for a slip.
pub const MOST_DENTS: i32 = 2_000;

/// All that a form is drawn from.
#[derive(Debug, Clone, Serialize)]
pub struct CountForm {
    /// The language it is worded in.
    pub language: &'static str,
    /// What stands at the foot of the paper.
    pub head: Head,
    /// The schedule by name and edition.
    pub schedule: String,
    /// The version of the program.
    pub version: &'static str,
    /// Its size bands from small to large.
    pub bands: Vec<Band>,
    /// The bodies it has panels for.
    pub bodies: Vec<Body>,
    /// Blank copies of each.
    pub copies: u16,
    /// Words to choose from.
    pub words: Words,
    /// Edges of the bands in true size.
    pub gauge: Gauge,
}

/// What the foot of each printed page says.
#[derive(Debug, Clone, Serialize)]
pub struct Head {
    what: &'static str,
    short_key: String,
}

/// A size band.
#[derive(Debug, Clone, Serialize)]
pub struct Band {
    /// As the schedule names it.
    pub name: String,
    /// As a range that every reader understands: `14-23 mm`.
    pub heading: String,
    /// Whether the name says more than the range.
    pub is_named: bool,
}

/// The panels of one body type.
#[derive(Debug, Clone, Serialize)]
pub struct Body {
    /// Its name.
    pub name: &'static str,
    /// Panels that an inspection usually lists, front to rear.
    pub panels: Vec<Panel>,
    /// What else a car of the type may have.
    pub further: Vec<Panel>,
}

/// A panel by its side.
#[derive(Debug, Clone, Serialize)]
pub struct Panel {
    /// `left front door`.
    pub name: String,
    /// Which part: `front door`.
    pub kind: &'static str,
    /// Its side, where it has one.
    pub side: Option<&'static str>,
}

/// The words of cells that are chosen from a list.
#[derive(Debug, Clone, Serialize)]
pub struct Words {
    /// What a panel is made of.
    pub material: Vec<&'static str>,
    /// How its back is reached.
    pub access: Vec<&'static str>,
    /// State of its paint.
    pub paint: Vec<&'static str>,
    /// How deep dents are.
    pub depth: Vec<&'static str>,
    /// Where they lie.
    pub position: Vec<&'static str>,
    /// Kinds of mark.
    pub mark: Vec<&'static str>,
    /// What marks come from.
    pub cause: Vec<&'static str>,
    /// Whose count it is.
    pub role: Vec<&'static str>,
    /// Body types.
    pub body: Vec<&'static str>,
    /// Steering sides.
    pub steering: Vec<&'static str>,
    /// Who bears the tax.
    pub tax_position: Vec<&'static str>,
    /// Sides.
    pub side: Vec<&'static str>,
}

fn names<T: Named>() -> Vec<&'static str> {
    T::ALL.iter().map(|value| value.name()).collect()
}

impl CountForm {
    /// The form of a schedule for some bodies, with so many blank copies of each.
    pub fn new(schedule: &Schedule, bodies: &[BodyType], copies: u16) -> Self {
        let terms = &schedule.terms;
        let name = format!("{}, edition {}", terms.name.value, terms.edition.value);
        let band = |band: &crate::schedule::SizeBand| {
            let heading = size_heading(band);
            let is_named = !heading.starts_with(band.name.trim_end_matches("mm").trim());
            Band { name: band.name.clone(), heading, is_named }
        };
        Self {
            language: "en",
            head: Head { what: "Dent count", short_key: name.clone() },
            schedule: name,
            version: VERSION,
            bands: schedule.sizes.iter().map(band).collect(),
            bodies: bodies.iter().map(|body| Body::new(*body)).collect(),
            copies,
            words: Words::new(),
            gauge: Gauge::new(&schedule.sizes),
        }
    }

    /// The bands' ranges, the same for two forms that differ in no column.
    pub fn headings(schedule: &Schedule) -> Vec<String> {
        schedule.sizes.iter().map(size_heading).collect()
    }

    /// As JSON, for the script of the page.
    pub fn json(&self) -> serde_json::Result<String> {
        serde_json::to_string(self)
    }

    /// Every kind of panel that one of its bodies may have, front to rear.
    pub fn kinds(&self) -> Vec<&'static str> {
        let has = |kind: &&'static str| self.bodies.iter().any(|body| body.kinds().contains(kind));
        names::<PanelKind>().into_iter().filter(has).collect()
    }
}

impl Body {
    fn new(body: BodyType) -> Self {
        let usual = body.usual_panels();
        let may_have = |id: &PanelId| !body.lacks(id.kind) && !usual.contains(id);
        let further = every_panel().into_iter().filter(may_have).map(Panel::new).collect();
        Self { name: body.name(), panels: usual.iter().copied().map(Panel::new).collect(), further }
    }

    /// Every kind of panel that it may have, front to rear.
    pub fn kinds(&self) -> Vec<&'static str> {
        let has =
            |kind: &&'static str| self.panels.iter().chain(&self.further).any(|panel| panel.kind == *kind);
        names::<PanelKind>().into_iter().filter(has).collect()
    }
}

impl Panel {
    fn new(id: PanelId) -> Self {
        Self { name: id.to_string(), kind: id.kind.name(), side: id.side.map(Side::name) }
    }
}

impl Words {
    fn new() -> Self {
        Self {
            material: names::<Material>(),
            access: names::<Access>(),
            paint: names::<Paint>(),
            depth: names::<Depth>(),
            position: names::<Position>(),
            mark: names::<MarkKind>(),
            cause: names::<Cause>(),
            role: names::<Role>(),
            body: names::<BodyType>(),
            steering: names::<Steering>(),
            tax_position: names::<TaxPosition>(),
            side: names::<Side>(),
        }
    }
}

/// Every panel with its side, in document order.
fn every_panel() -> Vec<PanelId> {
    let sides = |kind: &PanelKind| -> &'static [Option<Side>] {
        if kind.is_paired() { &[Some(Side::Left), Some(Side::Right)] } else { &[None] }
    };
    PanelKind::ALL.iter().flat_map(|kind| sides(kind).iter().map(|side| PanelId::new(*kind, *side))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_body_offers_every_panel_it_may_have_once() {
        for body in BodyType::ALL {
            let form = Body::new(*body);
            let mut names: Vec<&str> =
                form.panels.iter().chain(&form.further).map(|panel| panel.name.as_str()).collect();
            let all = names.len();
            names.sort_unstable();
            names.dedup();
            assert_eq!(names.len(), all, "{body}");
        }
        let sedan = Body::new(BodyType::Sedan);
        assert_eq!(sedan.panels.len(), 13);
        assert!(sedan.further.iter().all(|panel| panel.name != "tailgate"));
        assert!(sedan.further.iter().any(|panel| panel.name == "left rocker"));
    }
}
