//! Which panel of this car a row is about.

use super::cells::{Cells, is_formula};
use super::own_words::OwnWords;
use crate::claim::words::panel::{Part, Reading, SideWord, TwoSides, readings, suggest_panel};
use crate::claim::words::{find, folded};
use crate::claim::{
    BodyType, CheckDigitRule, Located, PanelId, PanelKind, Place, Side, Steering, Traffic, Vehicle,
};
use crate::problem::{Problem, catalogue::counts as say};
use crate::table::Seen;
use std::collections::BTreeMap;

/// What of a car decides how panels and sides are read.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Car {
    body: Option<Located<BodyType>>,
    steering: Option<Steering>,
    traffic: Option<Traffic>,
    is_north_american: bool,
    has_luggage_bars: bool,
}

impl Car {
    pub(super) fn of(vehicle: &Vehicle) -> Self {
        let market = vehicle.market.as_ref().map(|market| market.value.as_str());
        let roof = vehicle.roof_equipment.as_ref().map(|roof| folded(&roof.value)).unwrap_or_default();
        Self {
            body: vehicle.body,
            steering: vehicle.steering.map(|steering| steering.value),
            traffic: market.and_then(find),
            is_north_american: market.and_then(find::<CheckDigitRule>).is_some(),
            has_luggage_bars: ["rail", "bar", "rack", "carrier"].iter().any(|word| roof.contains(word)),
        }
    }
}

/// Names of panels that were read already: sheets repeat a few of them many times.
#[derive(Debug, Default)]
pub(super) struct Panels {
    /// Those without a side beside them; none is a formula or speaks of both sides.
    alone: BTreeMap<String, Readings>,
    /// Those with the words of their side before them.
    sided: BTreeMap<String, Readings>,
}

/// The readings of a name.
type Readings = Result<Vec<Reading>, TwoSides>;

/// A panel's name as written, with the words that are looked up (the side's column included).
struct Written<'w> {
    text: &'w str,
    place: Place,
    words: &'w str,
    /// Whether its left is meant as seen from in front of the car.
    is_mirrored: bool,
}

impl Panels {
    /// The panel of a row; one that has none, or a name that is none, is told.
    pub(super) fn of_row(&mut self, cells: &mut Cells<'_, '_>, car: &Car) -> Option<Located<PanelId>> {
        let Some(name) = cells.cell("panel") else {
            cells.problems.push(say::panel_missing(cells.place()));
            return None;
        };
        let (text, side) = (name.written(), cells.cell("side").map(|cell| (cell.place, cell.written())));
        if let Some((place, side)) = side.as_ref().filter(|(_, side)| says_both(side)) {
            cells.problems.push(say::side_both(*place, side));
            return None;
        }
        self.named(cells, car, name.place, &text, side.as_ref().map(|(_, side)| &**side))
    }

    /// The panel of a name and a side that stand apart.
    pub(super) fn named(
        &mut self,
        cells: &mut Cells<'_, '_>,
        car: &Car,
        place: Place,
        text: &str,
        side: Option<&str>,
    ) -> Option<Located<PanelId>> {
        let own = cells.own;
        let is_mirrored = cells.table.sheet.seen == Some(Seen::FromTheFront);
        // Nearly every name was read before.
        if side.is_none()
            && let Some(readings) = self.alone.get(text)
        {
            return settled(readings, &Written { text, place, words: text, is_mirrored }, car, cells);
        }
        if is_formula(text) {
            cells.problems.push(say::formula_as_text(place, text));
            return None;
        }
        if says_both(text) {
            cells.problems.push(say::side_both(place, text));
            return None;
        }
        let words =
            side.and_then(side_words).map_or_else(|| text.to_owned(), |side| format!("{side} {text}"));
        let read = if side.is_none() { &mut self.alone } else { &mut self.sided };
        let readings = read.entry(words.clone()).or_insert_with(|| read_name(&words, own));
        settled(readings, &Written { text, place, words: &words, is_mirrored }, car, cells)
    }
}

/// The panel that a name's readings mean on this car; where they mean none, that is told.
fn settled(
    readings: &Readings,
    written: &Written<'_>,
    car: &Car,
    cells: &mut Cells<'_, '_>,
) -> Option<Located<PanelId>> {
    match settle(readings, written, car, cells.own) {
        Ok(panel) => Some(Located::new(panel, written.place)),
        Err(problem) => {
            cells.problems.push(problem);
            None
        }
    }
}

/// Whether a text names a panel, whatever the car, or comes near to one.
pub(super) fn is_like_panel(text: &str, own: &OwnWords) -> bool {
    readings(text).map_or(true, |readings| !readings.is_empty())
        || own.translated(text).is_some()
        || !own.suggest_panel(text, suggest_panel(text)).is_empty()
}

/// The readings of a name; where it has none, of what it means by words of one's own.
fn read_name(words: &str, own: &OwnWords) -> Readings {
    let plain = readings(words)?;
    match own.translated(words).filter(|_| plain.is_empty()) {
        Some(translated) => readings(&translated),
        None => Ok(plain),
    }
}

/// Words that speak of both sides at once, longer ones first.
const BOTH: [&str; 8] =
    ["left and right", "right and left", "both sides", "left right", "l r both", "l and r", "both", "pair"];

/// Whether a text speaks of both sides at once.
fn says_both(text: &str) -> bool {
    let name = folded(text);
    BOTH.contains(&name.as_str()) || name.starts_with("both ") || name.ends_with(" both")
}

/// A name or a side that speaks of both sides, as the one and the other (`both front doors`: `left front door`, `right
/// front door`); `None` for any other text.
pub(super) fn each_side(text: &str) -> Option<[String; 2]> {
    let name = folded(text);
    if !says_both(text) {
        return None;
    }
    let both = BOTH.iter().find(|both| name.starts_with(**both) || name.ends_with(**both))?;
    let part = name.strip_prefix(both).or_else(|| name.strip_suffix(both))?.trim();
    let is_panel = |name: &str| readings(name).is_ok_and(|readings| !readings.is_empty());
    Some([Side::Left, Side::Right].map(|side| {
        let name = format!("{side} {part}").trim().to_owned();
        let single = name.strip_suffix('s').filter(|single| !is_panel(&name) && is_panel(single));
        single.map(str::to_owned).unwrap_or(name)
    }))
}

/// Whether a text is a side or an end and names no part: a corner of the car.
fn is_corner(text: &str) -> bool {
    const LONGEST: usize = 12;
    text.len() <= LONGEST && readings(&format!("{text} door")).is_ok_and(|readings| !readings.is_empty())
}

/// The words of a side's cell; `None` where it says that there is no side. A single R in such a cell is no rear.
fn side_words(side: &str) -> Option<String> {
    match folded(&side.replace(['\'', '\u{2019}'], "")).as_str() {
        "" | "c" | "centre" | "center" | "middle" | "n a" | "none" => None,
        "r" => Some("right".to_owned()),
        "l" => Some("left".to_owned()),
        side => Some(side.to_owned()),
    }
}

/// The first reading that fits this car; else what is wrong with the first reading.
fn settle(readings: &Readings, written: &Written<'_>, car: &Car, own: &OwnWords) -> Result<PanelId, Problem> {
    let Ok(readings) = readings else { return Err(say::side_clash(written.place, written.words)) };
    let mut fault = None;
    for reading in readings {
        match fit(*reading, written, car) {
            Ok(panel) => return Ok(panel),
            Err(problem) => fault = fault.or(Some(problem)),
        }
    }
    if fault.is_none() && is_corner(written.words) {
        return Err(say::panel_corner(written.place, written.text));
    }
    Err(fault.unwrap_or_else(|| {
        say::panel_unknown(
            written.place,
            written.text,
            &own.suggest_panel(written.text, suggest_panel(written.words)),
        )
    }))
}

fn fit(reading: Reading, written: &Written<'_>, car: &Car) -> Result<PanelId, Problem> {
    let kind = match reading.part {
        Part::Kind(kind) => kind,
        Part::Group(group) => {
            let has = |kind: &&PanelKind| car.body.is_none_or(|body| !body.value.lacks(**kind));
            let kinds: Vec<PanelKind> = group.kinds().iter().filter(has).copied().collect();
            let [kind] = kinds[..] else {
                let names: Vec<&str> = kinds.iter().map(|kind| kind.name()).collect();
                return Err(say::panel_which(written.place, written.text, &names));
            };
            kind
        }
    };
    if let Some(problem) = two_meanings(kind, written, car) {
        return Err(problem);
    }
    if let Some(body) = car.body.filter(|body| body.value.lacks(kind)) {
        let instead = body.value.instead_of(kind).iter().filter(|kind| !body.value.lacks(**kind));
        let names: Vec<&str> = instead.map(|kind| kind.name()).collect();
        return Err(say::panel_lacking(written.place, kind.name(), body.value.name(), body.place, &names));
    }
    match (kind.is_paired(), reading.side) {
        (true, Some(word)) => side(word, written, car).map(|side| PanelId::new(kind, Some(side))),
        (false, None) => Ok(PanelId::new(kind, None)),
        (true, None) => Err(say::side_missing(written.place, written.text, kind.name())),
        (false, Some(_)) => Err(say::side_needless(written.place, written.words, kind.name())),
    }
}

fn side(word: SideWord, written: &Written<'_>, car: &Car) -> Result<Side, Problem> {
    let opposite = |side| if side == Side::Left { Side::Right } else { Side::Left };
    let near = car.traffic.map(|traffic| if traffic == Traffic::Left { Side::Left } else { Side::Right });
    let driver =
        car.steering.map(|steering| if steering == Steering::Left { Side::Left } else { Side::Right });
    let (side, needs) = match word {
        SideWord::Left if written.is_mirrored => (Some(Side::Right), ""),
        SideWord::Right if written.is_mirrored => (Some(Side::Left), ""),
        SideWord::Left => (Some(Side::Left), ""),
        SideWord::Right => (Some(Side::Right), ""),
        SideWord::Near => (near, "market"),
        SideWord::Off => (near.map(opposite), "market"),
        SideWord::Driver => (driver, "steering"),
        SideWord::Passenger => (driver.map(opposite), "steering"),
    };
    side.ok_or_else(|| say::side_relative(written.place, written.words, needs))
}

/// Words that mean a panel or something else, where this car may have both.
fn two_meanings(kind: PanelKind, written: &Written<'_>, car: &Car) -> Option<Problem> {
    let has = |word: &str| folded(written.text).split(' ').any(|other| other == word);
    let is_convertible = car.body.is_some_and(|body| body.value == BodyType::Convertible);
    if kind == PanelKind::Hood && is_convertible && !car.is_north_american && has("hood") {
        return Some(say::panel_word(written.place, written.text, ["the bonnet", "the soft top"], "bonnet"));
    }
    // Other bodies seldom carry bars along the roof (common practice, no source).
    let may_have_bars = car.body.is_none_or(|body| {
        matches!(body.value, BodyType::Estate | BodyType::SportUtility | BodyType::PeopleCarrier)
    });
    let is_frame = || has("cant") || has("frame") || has("side");
    if kind == PanelKind::RoofRail && may_have_bars && car.has_luggage_bars && !is_frame() {
        let meanings = ["the frame of the body", "the luggage bar"];
        return Some(say::panel_word(written.place, written.text, meanings, "cant rail"));
    }
    None
}
