//! The panels as plates say what the assessment says, lie inside the figure and do not cover each other.

use super::fixture::{self, every_case};
use stipple::assess::PanelState;
use stipple::report::document::Plate;
use stipple::report::wording;

const WIDTH: u32 = 222;

#[test]
fn every_panel_has_a_plate_with_its_own_count_and_method() {
    for (name, case) in every_case() {
        let Some(figure) = case.document().figure else {
            assert_eq!(case.assessment.panels.len(), 1, "{name}");
            continue;
        };
        for panel in &case.assessment.panels {
            let title = wording::sentence(&panel.panel.to_string());
            let plate = figure.plates.iter().find(|plate| plate.name == title).expect("a plate");
            let says: Vec<&str> = plate.lines.iter().map(|line| line.text.as_str()).collect();
            let says = says.join(", ");
            assert!(says.contains(&wording::method_of(panel)), "{name}: {title}: {says}");
            if panel.state == PanelState::Assessed && panel.dents > 0 {
                assert!(says.starts_with(&wording::dents(panel.dents)), "{name}: {title}: {says}");
            }
            assert!(figure.described.contains(&format!("{title}: {says}.")), "{name}: {title}");
        }
    }
}

#[test]
fn plates_lie_inside_the_figure_and_beside_each_other() {
    let apart = |a: &Plate, b: &Plate| {
        a.x + WIDTH < b.x || b.x + WIDTH < a.x || a.y + a.height < b.y || b.y + b.height < a.y
    };
    for (name, case) in every_case() {
        let Some(figure) = case.document().figure else { continue };
        for (index, plate) in figure.plates.iter().enumerate() {
            assert!(plate.x + WIDTH <= figure.width && plate.y + plate.height <= figure.height, "{name}");
            let inside = |line: &stipple::report::document::PlateLine| line.y < plate.height;
            assert!(plate.lines.iter().all(inside), "{name}: {}", plate.name);
            let covered = figure.plates[..index].iter().find(|other| !apart(other, plate));
            assert_eq!(covered, None, "{name}: {}", plate.name);
        }
    }
}

#[test]
fn marks_carry_the_numbers_of_the_lists() {
    let case = fixture::storm();
    let document = case.document();
    let plates = document.figure.unwrap().plates;
    let lists = [document.marks, document.excluded].into_iter().flatten();
    let mut seen = 0;
    for row in lists.flat_map(|table| table.rows) {
        let text = |cell: usize| match row[cell].as_ref().unwrap() {
            stipple::report::document::Entry::Words(text)
            | stipple::report::document::Entry::Number(text) => text.clone(),
            other => panic!("{other:?}"),
        };
        let (number, panel, kind) = (text(0), text(1), text(2));
        let plate = plates.iter().find(|plate| plate.name == panel).unwrap();
        let begins = format!("{number}: {kind}");
        assert!(plate.lines.iter().any(|line| line.text.starts_with(&begins)), "{panel}: {begins}");
        seen += 1;
    }
    assert_eq!(seen, case.assessment.panels.iter().map(|panel| panel.marks.len()).sum::<usize>());
    assert!(seen > 0);
}
