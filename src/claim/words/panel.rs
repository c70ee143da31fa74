//! Names of panels as people write them: the part, the side and whether front or rear, in any order.

use super::{find_folded, folded, named, suggest};
use crate::claim::PanelKind;

named! {
    /// A word for several kinds of panel: which one is meant follows from front or rear, or from the body type.
    pub enum PanelGroup {
        Door = "door",
        Bumper = "bumper cover",
        Pillar = "pillar",
        VanSide = "van side",
    }
}

impl PanelGroup {
    /// The kinds that the word may mean.
    pub const fn kinds(self) -> &'static [PanelKind] {
        match self {
            Self::Door => &[PanelKind::FrontDoor, PanelKind::RearDoor, PanelKind::SlidingDoor],
            Self::Bumper => &[PanelKind::FrontBumper, PanelKind::RearBumper],
            Self::Pillar => &[PanelKind::APillar, PanelKind::BPillar, PanelKind::CPillar],
            Self::VanSide => &[PanelKind::FrontVanSide, PanelKind::RearVanSide],
        }
    }
}

/// A side as written. Near (the kerb's) and off need the country's side of traffic, driver's and passenger's the
/// steering side.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum SideWord {
    /// As seated, facing forward.
    Left,
    /// As seated, facing forward.
    Right,
    /// The kerb's side.
    Near,
    /// The middle of the road's side.
    Off,
    /// Where the steering wheel is.
    Driver,
    /// The other one.
    Passenger,
}

/// What part a name means.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// This kind.
    Kind(PanelKind),
    /// One of several kinds.
    Group(PanelGroup),
}

/// One way to read a panel's name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Reading {
    /// The part.
    pub part: Part,
    /// The side, if the name says one.
    pub side: Option<SideWord>,
}

/// The name says left and right at once.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TwoSides;

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum End {
    Front,
    Rear,
}

impl End {
    const fn word(self) -> &'static str {
        match self {
            Self::Front => "front",
            Self::Rear => "rear",
        }
    }
}

/// What one or several words of a name mean beside the part.
#[derive(Debug, Clone, Copy)]
enum Meaning {
    Side(SideWord),
    /// A seat ("driver's door"): a side, and on a door without another word the front one.
    Seat(SideWord),
    End(End),
    Both(SideWord, End),
    /// A single R: right or rear.
    RightOrRear,
}

/// Words for sides and ends, folded; longer ones are tried first.
#[rustfmt::skip]
const MEANINGS: &[(Meaning, &[&str])] = {
    use End::{Front, Rear};
    use Meaning::{Both, RightOrRear, Seat};
    use SideWord::{Driver, Left, Near, Off, Passenger, Right};
    &[
        (Meaning::Side(Left), &["left hand side", "left hand", "left side", "left", "lhs", "lh", "l h s", "l h", "l", "lt", "lft", "links", "linke", "linker", "linkes", "gauche", "izquierda", "izquierdo", "izq", "sinistra", "sinistro", "sx"]),
        (Meaning::Side(Right), &["right hand side", "right hand", "right side", "right", "rhs", "rh", "r h s", "r h", "rt", "rgt", "rechts", "rechte", "rechter", "rechtes", "droite", "droit", "derecha", "derecho", "dcha", "der", "destra", "destro", "dx"]),
        (Meaning::Side(Near), &["near side", "nearside", "near", "n s", "ns"]),
        (Meaning::Side(Off), &["off side", "offside", "off", "o s", "os"]),
        (Meaning::Side(Driver), &["driver side", "drivers side", "d s", "ds", "fahrerseite", "côté conducteur", "cote conducteur", "lado conductor", "lado del conductor", "lato guida", "lato guidatore"]),
        (Meaning::Side(Passenger), &["passenger side", "passengers side", "pass side", "p s", "ps", "beifahrerseite", "côté passager", "cote passager", "lado acompañante", "lado acompanante", "lado pasajero", "lato passeggero"]),
        (Seat(Driver), &["driver", "drivers"]),
        (Seat(Passenger), &["passenger", "passengers", "pass"]),
        (Meaning::End(Front), &["front", "frt", "f", "vorn", "vorne", "vordere", "vorderer", "avant", "delantero", "delantera", "anteriore", "ant", "del"]),
        (Meaning::End(Rear), &["rear", "back", "hinten", "hintere", "hinterer", "arrière", "arriere", "trasero", "trasera", "posteriore", "post", "tras"]),
        (Both(Left, Front), &["lf", "fl", "l f", "f l", "lhf", "flh", "lh f", "l h f", "vl", "v l", "avg", "av g"]),
        (Both(Right, Front), &["rf", "fr", "r f", "f r", "rhf", "frh", "rh f", "r h f", "vr", "v r", "avd", "av d"]),
        (Both(Left, Rear), &["lr", "rl", "l r", "r l", "lhr", "rlh", "lh r", "l h r", "hl", "h l", "arg", "ar g"]),
        (Both(Right, Rear), &["rr", "r r", "rhr", "rrh", "rh r", "r h r", "hr", "h r", "ard", "ar d"]),
        (Both(Near, Front), &["nsf", "n s f", "fns", "f n s"]),
        (Both(Near, Rear), &["nsr", "n s r", "rns", "r n s"]),
        (Both(Off, Front), &["osf", "o s f", "fos", "f o s"]),
        (Both(Off, Rear), &["osr", "o s r", "ros", "r o s"]),
        (RightOrRear, &["r"]),
    ]
};

/// Every way to read a panel's name; none when no word for a part is in it. A single R is right or rear, so that there
/// may be two: who knows the side, the body type and the other words decides.
pub fn readings(text: &str) -> Result<Vec<Reading>, TwoSides> {
    let name = folded(&text.replace(['\'', '\u{2019}'], ""));
    if let Some(kind) = find_folded(&name) {
        return Ok(vec![Reading { part: Part::Kind(kind), side: None }]);
    }
    let (meanings, words) = split(&name);
    let mut found = Vec::new();
    let mut clash = false;
    for r in [Meaning::Side(SideWord::Right), Meaning::End(End::Rear)] {
        let has_r = meanings.iter().any(|meaning| matches!(meaning, Meaning::RightOrRear));
        let settled: Vec<Meaning> = meanings
            .iter()
            .map(|meaning| if matches!(meaning, Meaning::RightOrRear) { r } else { *meaning })
            .collect();
        match read(&settled, &words) {
            Ok(Some(reading)) if !found.contains(&reading) => found.push(reading),
            Ok(_) => {}
            Err(TwoSides) => clash = true,
        }
        if !has_r {
            break;
        }
    }
    if clash && found.is_empty() { Err(TwoSides) } else { Ok(found) }
}

/// The names nearest to one that cannot be read, sides left aside.
pub fn suggest_panel(text: &str) -> Vec<String> {
    let name = folded(text);
    let (meanings, words) = split(&name);
    let end = meanings.iter().find_map(|meaning| match meaning {
        Meaning::End(end) | Meaning::Both(_, end) => Some(end.word()),
        _ => None,
    });
    let rest = words.join(" ");
    let mut names = end.map_or_else(Vec::new, |end| suggest::<PanelKind>(&format!("{end} {rest}")));
    names.extend(suggest::<PanelKind>(&rest));
    names.extend(suggest::<PanelGroup>(&rest));
    let mut unique = std::collections::BTreeSet::new();
    names.retain(|name| unique.insert(name.clone()));
    names.truncate(3);
    names
}

/// Parts a folded name into what it says of side and end, and the words that are left.
fn split(name: &str) -> (Vec<Meaning>, Vec<&str>) {
    let words: Vec<&str> = name.split(' ').filter(|word| !word.is_empty()).collect();
    let (mut meanings, mut left) = (Vec::new(), Vec::new());
    let mut at = 0;
    while at < words.len() {
        let longest = (1..=3.min(words.len() - at)).rev().find_map(|length| {
            let phrase = words[at..at + length].join(" ");
            let meaning = MEANINGS.iter().find(|(_, phrases)| phrases.contains(&phrase.as_str()))?.0;
            Some((length, meaning))
        });
        if let Some((length, meaning)) = longest {
            meanings.push(meaning);
            at += length;
        } else {
            left.push(words[at]);
            at += 1;
        }
    }
    (meanings, left)
}

fn read(meanings: &[Meaning], words: &[&str]) -> Result<Option<Reading>, TwoSides> {
    let (mut sides, mut seats, mut ends) = (Vec::new(), Vec::new(), Vec::new());
    for meaning in meanings {
        match meaning {
            Meaning::Side(side) => sides.push(*side),
            Meaning::Seat(side) => seats.push(*side),
            Meaning::End(end) => ends.push(*end),
            Meaning::Both(side, end) => {
                sides.push(*side);
                ends.push(*end);
            }
            Meaning::RightOrRear => {}
        }
    }
    ends.dedup();
    // "Left rear passenger door": the seat only says that somebody sits there.
    let is_seat_idle = !sides.is_empty() && !ends.is_empty();
    if !is_seat_idle {
        sides.extend(&seats);
    }
    sides.dedup();
    if sides.len() > 1 {
        return Err(TwoSides);
    }
    let rest = words.join(" ");
    let part = match ends[..] {
        [] if !seats.is_empty() && rest == "door" => Some(Part::Kind(PanelKind::FrontDoor)),
        [] => part_of(&rest),
        [end] => at_end(end, &rest),
        _ => None,
    };
    Ok(part.map(|part| Reading { part, side: sides.first().copied() }))
}

/// The part at one end of the car: `rear wing`; in another language by what its own word means, `tür` being a door.
fn at_end(end: End, rest: &str) -> Option<Part> {
    let kind =
        |name: &str| part_of(&format!("{} {name}", end.word())).filter(|part| matches!(part, Part::Kind(_)));
    kind(rest).or_else(|| match part_of(rest)? {
        Part::Kind(of) => kind(of.name()),
        Part::Group(group) => kind(group.name()),
    })
}

/// The part of a folded name without side; "panel" and "skin" at its end say nothing.
fn part_of(name: &str) -> Option<Part> {
    let plain = |name: &str| {
        let kind = find_folded(name).map(Part::Kind);
        kind.or_else(|| find_folded(name).map(Part::Group))
    };
    plain(name).or_else(|| {
        let shorter = name.strip_suffix(" panel").or_else(|| name.strip_suffix(" skin"))?;
        plain(shorter)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use PanelKind::{FrontDoor, QuarterPanel, RearBumper, RearDoor, RearVanSide, RoofRail};

    fn only(text: &str) -> (Part, Option<SideWord>) {
        let found = readings(text).unwrap();
        assert_eq!(found.len(), 1, "{text}: {found:?}");
        (found[0].part, found[0].side)
    }

    #[test]
    fn side_and_end_may_stand_anywhere_in_the_name() {
        for text in [
            "left front door",
            "LF door",
            "L/F door",
            "door, front left",
            "Front door LH",
            "FL door",
            "door lf",
            "Left-hand front door",
            "left front passenger door",
            "front door (left)",
        ] {
            assert_eq!(only(text), (Part::Kind(FrontDoor), Some(SideWord::Left)), "{text}");
        }
        for text in
            ["RR quarter", "right rear quarter panel", "R/R quarter panel", "O/S rear wing", "rear wing RH"]
        {
            let (part, side) = only(text);
            assert_eq!(part, Part::Kind(QuarterPanel), "{text}");
            assert!(matches!(side, Some(SideWord::Right | SideWord::Off)), "{text}");
        }
        assert_eq!(only("van side rear left"), (Part::Kind(RearVanSide), Some(SideWord::Left)));
        assert_eq!(only("left roof rail panel"), (Part::Kind(RoofRail), Some(SideWord::Left)));
    }

    #[test]
    fn names_in_other_languages_are_read_with_their_sides() {
        use PanelKind::{Fender, Hood, TrunkLid};
        for (text, kind) in [
            ("Tür vorn links", FrontDoor),
            ("Tuer VL", FrontDoor),
            ("vordere linke Tür", FrontDoor),
            ("porte avant gauche", FrontDoor),
            ("Porte AVG", FrontDoor),
            ("puerta delantera izquierda", FrontDoor),
            ("porta anteriore sinistra", FrontDoor),
            ("porta ant. sx", FrontDoor),
            ("Kotflügel links", Fender),
            ("aile arrière gauche", QuarterPanel),
            ("Seitenwand hinten links", QuarterPanel),
            ("aleta trasera izquierda", QuarterPanel),
            ("parafango posteriore sinistro", QuarterPanel),
            ("hintere linke Tür", RearDoor),
        ] {
            assert_eq!(only(text), (Part::Kind(kind), Some(SideWord::Left)), "{text}");
        }
        for (text, kind) in [
            ("Motorhaube", Hood),
            ("capot", Hood),
            ("cofano", Hood),
            ("Kofferraumdeckel", TrunkLid),
            ("pare-chocs arrière", RearBumper),
            ("Stossstange hinten", RearBumper),
        ] {
            assert_eq!(only(text), (Part::Kind(kind), None), "{text}");
        }
        assert_eq!(only("Tür Fahrerseite vorn"), (Part::Kind(FrontDoor), Some(SideWord::Driver)));
    }

    #[test]
    fn near_off_and_seats_are_kept_as_written() {
        assert_eq!(only("nearside front door"), (Part::Kind(FrontDoor), Some(SideWord::Near)));
        assert_eq!(only("NSF door"), (Part::Kind(FrontDoor), Some(SideWord::Near)));
        assert_eq!(only("O/S/R door"), (Part::Kind(RearDoor), Some(SideWord::Off)));
        assert_eq!(only("driver's door"), (Part::Kind(FrontDoor), Some(SideWord::Driver)));
        assert_eq!(only("passenger side rear door"), (Part::Kind(RearDoor), Some(SideWord::Passenger)));
    }

    #[test]
    fn a_single_r_is_right_or_rear() {
        let bumper = readings("R bumper").unwrap();
        assert!(bumper.contains(&Reading { part: Part::Kind(RearBumper), side: None }), "{bumper:?}");
        let wing = readings("R wing").unwrap();
        assert_eq!(wing.len(), 2);
        assert_eq!(only("L R door"), (Part::Kind(RearDoor), Some(SideWord::Left)));
        assert_eq!(only("front r door"), (Part::Kind(FrontDoor), Some(SideWord::Right)));
        assert_eq!(only("rear bumper"), (Part::Kind(RearBumper), None));
    }

    #[test]
    fn two_sides_clash_and_unknown_parts_have_no_reading() {
        assert_eq!(readings("left right door"), Err(TwoSides));
        assert_eq!(readings("left dor"), Ok(Vec::new()));
        assert_eq!(suggest_panel("left frnt dor"), ["front door"]);
        assert_eq!(suggest_panel("LF dor"), ["front door", "door"]);
        assert_eq!(readings("total"), Ok(Vec::new()));
    }
}
