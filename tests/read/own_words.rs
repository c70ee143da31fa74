//! Words of one's own, from a table beside the counts.

use crate::{Run, VEHICLES, panel, tally};
use stipple::claim::{Access, Material};

fn run(words: &str, counts: &str) -> Run {
    Run::texts(&[("words.csv", words), ("counts.csv", counts), ("vehicles.csv", VEHICLES)])
}

#[test]
fn own_words_are_read_for_panels_sides_materials_and_access() {
    let run = run(
        "word,meaning,language\nLid Skin,hood,own\nporta de tras,rear door,\nesquerda,left,\nblik,aluminium,\ntight,behind brace,\n",
        "claim,panel,side,material,access,0-10 mm\nA-1,LID SKIN,,blik,tight,4\nA-1,porta de tras esquerda,,,,3\nA-1,porta de tras,right,,,2\nA-1,fender,esquerda,,,1\n",
    );
    assert_eq!(run.of_claim("A-1"), Vec::<String>::new());
    assert_eq!(run.of_files(), Vec::<String>::new());
    let claim = run.claim("A-1");
    let hood = panel(claim, "hood");
    assert_eq!(tally(hood), [("0-10 mm", Some(4))]);
    assert_eq!(hood.material.map(|material| material.value), Some(Material::Aluminium));
    assert_eq!(hood.access.map(|access| access.value), Some(Access::BehindBrace));
    for (name, count) in [("left rear door", 3), ("right rear door", 2), ("left fender", 1)] {
        assert_eq!(tally(panel(claim, name)), [("0-10 mm", Some(count))], "{name}");
    }
}

#[test]
fn a_slip_of_an_own_word_gets_it_suggested() {
    let run = run(
        "word,meaning\nlid skin,hood\nblik,aluminium\n",
        "claim,panel,material,0-10 mm\nA-1,lid skim,,4\nA-1,roof,blick,1\n",
    );
    assert_eq!(run.of_claim("A-1"), ["panel-unknown counts.csv B2", "word-unknown counts.csv C3"]);
    let help: Vec<_> = run.intake("A-1").problems.iter().filter_map(|problem| problem.help.clone()).collect();
    assert_eq!(help, ["did you mean lid skin (hood)?", "did you mean blik (aluminium)?"]);
}

#[test]
fn meanings_that_nobody_knows_and_words_that_have_another_are_told_and_not_used() {
    let run =
        run("word,meaning\nlid skin,hod\ntop,roof\nTop,hood\nalone,\n", "claim,panel,0-10 mm\nA-1,top,4\n");
    assert_eq!(run.of_files(), ["meaning-unknown words.csv B2", "word-taken words.csv A4"]);
    assert_eq!(tally(panel(run.claim("A-1"), "roof")), [("0-10 mm", Some(4))]);
}

#[test]
fn what_a_map_says_of_a_known_word_holds_for_whole_cells_and_not_within_names() {
    let run = run(
        "word,means\nrail,rocker\n",
        "claim,panel,side,0-10 mm\nA-1,rail,left,4\nA-1,right roof rail,,2\n",
    );
    assert_eq!(run.of_claim("A-1"), Vec::<String>::new());
    assert_eq!(tally(panel(run.claim("A-1"), "left rocker")), [("0-10 mm", Some(4))]);
    assert_eq!(tally(panel(run.claim("A-1"), "right roof rail")), [("0-10 mm", Some(2))]);
}
