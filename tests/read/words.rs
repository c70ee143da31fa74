//! Words that need the car to be understood.

use crate::{Run, panel};

/// Counts of one row under a vehicle with these facts; the panel it was understood as, or its problems.
fn understood(facts: &str, values: &str, name: &str) -> Result<String, Vec<String>> {
    let counts = format!("job,panel,0-10 mm\nJ1,{name},4\n");
    let vehicles = format!("job,make,{facts}\nJ1,Larch,{values}\n");
    let run = Run::texts(&[("counts.csv", &counts), ("vehicles.csv", &vehicles)]);
    let problems: Vec<String> =
        run.intake("J1").problems.iter().map(|problem| problem.code.id.to_owned()).collect();
    match run.claim("J1").inspections.first().and_then(|inspection| inspection.panels.first()) {
        Some(found) => {
            assert_eq!(problems, Vec::<String>::new());
            Ok(panel(run.claim("J1"), &found.panel.to_string()).panel.to_string())
        }
        None => Err(problems),
    }
}

fn asked(id: &str) -> Result<String, Vec<String>> {
    Err(vec![id.to_owned()])
}

#[test]
fn near_and_off_side_follow_the_traffic_of_the_market() {
    assert_eq!(understood("market", "UK", "nearside wing"), Ok("left fender".into()));
    assert_eq!(understood("market", "Ireland", "O/S/F door"), Ok("right front door".into()));
    assert_eq!(understood("market", "Germany", "nearside wing"), Ok("right fender".into()));
    assert_eq!(understood("market", "Atlantis", "nearside wing"), asked("side-relative"));
}

#[test]
fn drivers_and_passengers_side_follow_the_steering() {
    assert_eq!(understood("steering", "rhd", "driver's door"), Ok("right front door".into()));
    assert_eq!(understood("steering", "left", "passenger side rear door"), Ok("right rear door".into()));
    assert_eq!(understood("model", "Finch", "driver door"), asked("side-relative"));
}

#[test]
fn a_door_is_the_front_one_where_there_is_no_other() {
    assert_eq!(understood("body type", "coupe", "left door"), Ok("left front door".into()));
    assert_eq!(understood("body type", "saloon", "left door"), asked("panel-which"));
    assert_eq!(understood("body type", "saloon", "R bumper"), Ok("rear bumper cover".into()));
}

#[test]
fn a_hood_on_a_convertible_is_asked_about_except_in_north_america() {
    assert_eq!(understood("body type", "convertible", "hood"), asked("panel-word"));
    assert_eq!(understood("body type", "convertible", "bonnet"), Ok("hood".into()));
    assert_eq!(understood("body type,market", "convertible,USA", "hood"), Ok("hood".into()));
    assert_eq!(understood("body type", "saloon", "hood"), Ok("hood".into()));
}

#[test]
fn a_roof_rail_beside_luggage_bars_is_asked_about() {
    assert_eq!(understood("roof equipment", "luggage bars", "left roof rail"), asked("panel-word"));
    assert_eq!(understood("roof equipment", "luggage bars", "left cant rail"), Ok("left roof rail".into()));
    assert_eq!(
        understood("body type,roof equipment", "saloon,roof bars", "left roof rail"),
        Ok("left roof rail".into())
    );
    assert_eq!(understood("roof equipment", "sunroof", "left roof rail"), Ok("left roof rail".into()));
}

#[test]
fn a_side_may_stand_in_a_column_of_its_own() {
    let run = Run::texts(&[
        (
            "counts.csv",
            "job,panel,side,0-10 mm\nJ1,wing,R,4\nJ1,front door,LH,4\nJ1,roof,-,4\nJ1,door,LR,1\n",
        ),
        ("vehicles.csv", "job,make,body type\nJ1,Larch,saloon\n"),
    ]);
    let panels = &run.claim("J1").inspections[0].panels;
    let names: Vec<String> = panels.iter().map(|panel| panel.panel.to_string()).collect();
    assert_eq!(names, ["right fender", "roof", "left front door", "left rear door"]);
    assert_eq!(run.of_claim("J1"), Vec::<String>::new());
}

#[test]
fn a_dollar_is_that_of_the_market() {
    let run = Run::texts(&[
        ("items.csv", "job,item,price\nJ1,badge,$12.50\nJ2,badge,$12.50\n"),
        ("vehicles.csv", "job,make,market\nJ1,Larch,Canada\nJ2,Larch,\n"),
    ]);
    let price = run.claim("J1").items[0].price.unwrap().value;
    assert_eq!(price.currency.unwrap().code(), "CAD");
    assert!(
        run.of_claim("J2").contains(&"currency-open items.csv C3".to_owned()),
        "{:?}",
        run.of_claim("J2")
    );
}

#[test]
fn an_additional_count_may_replace_or_add_and_is_asked_about() {
    let told = |role: &str| -> Vec<&str> {
        let counts = format!("job,panel,role,0-10 mm\nJ1,roof,{role},4\n");
        let run = Run::texts(&[("counts.csv", &counts), ("vehicles.csv", "job,make\nJ1,Larch\n")]);
        run.intake("J1").problems.iter().map(|problem| problem.code.id).collect()
    };
    assert_eq!(told("supplemental"), Vec::<&str>::new());
    assert_eq!(told("additional"), told("no such role"));
    assert_eq!(told("additional").len(), 1);
}

#[test]
fn names_and_words_of_columns_are_written_as_headings_are_compared() {
    use stipple::claim::words::folded;
    let forms = stipple::read::forms().iter().chain(stipple::schedule::forms());
    for column in forms.flat_map(|form| form.columns) {
        for word in column.words.iter().chain([&column.id]) {
            assert_eq!(folded(word), **word, "the column `{}`", column.id);
        }
    }
}

#[test]
fn a_page_of_text_in_a_cell_is_a_remark_and_no_heading() {
    let page = "size 0-10 mm of no weight ".repeat(400);
    let counts = format!("job,panel,0-10 mm,remark\nJ1,roof,4,{page}\n\nJ1,hood,3,{page}\n");
    let run = Run::texts(&[("counts.csv", &counts), ("vehicles.csv", "job,make\nJ1,Larch\n")]);
    let panels = &run.claim("J1").inspections[0].panels;
    assert_eq!(panels.len(), 2);
    assert_eq!(run.of_claim("J1"), Vec::<String>::new());
}
