//! Tables in the layouts that people use.

use crate::{Run, panel, tally};
use stipple::claim::{Access, BodyType, KeyKind, MarkKind, Material, Method, Paint, Role};
use stipple::quantity::Currency;

#[test]
fn a_wide_table_keeps_blanks_apart_from_zeros() {
    let run = Run::counts(
        "claim,panel,0-10 mm,11-20 mm,21-30 mm,material,access\n\
         A-1,Bonnet,12,,0,alu,braced\n\
         A-1,roof,,,,,\n\
         A-1,LF door,3,,,,\n",
    );
    let claim = run.claim("A-1");
    let hood = panel(claim, "hood");
    assert_eq!(tally(hood), [("0-10 mm", Some(12)), ("11-20 mm", None), ("21-30 mm", Some(0))]);
    assert_eq!(hood.material.unwrap().value, Material::Aluminium);
    assert_eq!(hood.access.unwrap().value, Access::BehindBrace);
    assert!(!panel(claim, "roof").is_inspected());
    assert_eq!(tally(panel(claim, "left front door"))[0], ("0-10 mm", Some(3)));
    assert_eq!(run.of_claim("A-1"), Vec::<String>::new());
    assert_eq!(run.opened.sources.short(hood.tally[0].place).rsplit('/').next(), Some("counts.csv C2"));
}

#[test]
fn title_rows_totals_and_notes_are_no_panels() {
    let run = Run::counts(
        "Counts after the storm,,,,\n\
         all sizes in mm,,,,\n\
         \n\
         Claim,Panel,0 - 10,11 - 20,Total\n\
         A-1,roof,10,2,12\n\
         ,hood,5,,5\n\
         ,Total,15,2,17\n\
         \n\
         Note: counted at dusk,,,,\n\
         ,Signed: A. Sample,,,\n",
    );
    let claim = run.claim("A-1");
    assert_eq!(claim.inspections[0].panels.len(), 2);
    let size = &panel(claim, "roof").tally[1].size;
    assert_eq!(size.interval.unwrap().high.unwrap().to_string(), "20 mm");
    assert_eq!(run.of_claim("A-1"), Vec::<String>::new());
    assert_eq!(run.of_files(), ["text-unread counts.csv A9"]);
    assert!(run.problems[0].message.starts_with("2 cells"), "{}", run.problems[0].message);
}

#[test]
fn a_long_table_has_a_row_per_panel_and_size() {
    let run = Run::counts(
        "claim;panel;size;dents\n\
         A-1;roof;0-1 cm;12\n\
         ;;1-2 cm;3\n\
         ;;2-3 cm;\n\
         A-1;boot lid;small;0\n\
         A-2;roof;0-1 cm;7\n",
    );
    let problems = run.of_claim("A-1");
    assert_eq!(problems, ["panel-lacking counts.csv B5"], "a hatchback has no boot lid");
    assert_eq!(
        tally(panel(run.claim("A-1"), "roof")),
        [("0-1 cm", Some(12)), ("1-2 cm", Some(3)), ("2-3 cm", None)]
    );
    assert_eq!(tally(panel(run.claim("A-2"), "roof")), [("0-1 cm", Some(7))]);
}

#[test]
fn a_column_of_sizes_beside_dents_is_the_long_form() {
    for heading in ["size band", "size", "Size (mm)", "size range", "size band mm"] {
        let run =
            Run::counts(&format!("claim,panel,{heading},dents\nA-1,roof,0-10 mm,12\nA-1,roof,11-20 mm,3\n"));
        assert_eq!(run.of_files(), Vec::<String>::new(), "{heading}");
        let counted = tally(panel(run.claim("A-1"), "roof"));
        assert_eq!(counted, [("0-10 mm", Some(12)), ("11-20 mm", Some(3))], "{heading}");
    }
    let run = Run::counts("claim,panel,size 1,size 2,dents\nA-1,roof,4,5,9\n");
    assert_eq!(tally(panel(run.claim("A-1"), "roof")), [("size 1", Some(4)), ("size 2", Some(5))]);
}

#[test]
fn wide_and_long_tables_of_one_inspection_add_up() {
    let run = Run::texts(&[
        ("a.csv", "claim,panel,0-10 mm,11-20 mm\nA-1,roof,4,\nA-1,hood,,\n"),
        ("b.csv", "claim,panel,size,dents\nA-1,roof,21-30 mm,2\nA-1,roof,11-20 mm,5\n"),
        ("v.csv", crate::VEHICLES),
    ]);
    let counted = tally(panel(run.claim("A-1"), "roof"));
    assert_eq!(counted, [("0-10 mm", Some(4)), ("11-20 mm", Some(5)), ("21-30 mm", Some(2))]);
    assert_eq!(run.of_claim("A-1"), Vec::<String>::new());
}

#[test]
fn headings_may_stand_in_two_rows_and_the_unit_above_them() {
    let run = Run::counts(
        "claim,panel,dent size (mm),,remark\n\
         ,,0-10,11-20,\n\
         A-1,roof,4,5,soft hail\n",
    );
    let roof = panel(run.claim("A-1"), "roof");
    assert_eq!(tally(roof), [("0-10", Some(4)), ("11-20", Some(5))]);
    assert_eq!(roof.tally[1].size.interval.unwrap().low.to_string(), "11 mm");
    assert_eq!(roof.remarks[0].value, "soft hail");
    assert_eq!(run.of_files(), Vec::<String>::new());
}

#[test]
fn tables_may_stand_below_each_other_on_one_sheet() {
    let run = Run::texts(&[(
        "one car.csv",
        "registration,make,body type,owner\n\
         XY 1,Larch,van,Ann Sample\n\
         \n\
         Dents\n\
         panel,0-10 mm\n\
         roof,4\n\
         left rear van side,5\n\
         \n\
         panel,mark,length mm\n\
         left rear van side,crease,80\n\
         \n\
         item,price EUR,hours,action\n\
         rear lamp,120.50,0.4,replace\n",
    )]);
    assert_eq!(run.intakes.len(), 1);
    let claim = run.claim("XY 1");
    assert_eq!(claim.key.kind, KeyKind::Registration);
    assert_eq!(claim.vehicle.body.unwrap().value, BodyType::Van);
    let side = panel(claim, "left rear van side");
    assert_eq!(side.marks[0].kind.value, MarkKind::Crease);
    assert_eq!(side.marks[0].length.unwrap().value.to_string(), "80 mm");
    let price = claim.items[0].price.unwrap().value;
    assert_eq!((price.amount.to_string().as_str(), price.currency), ("120.50", Currency::from_code("EUR")));
    assert_eq!(claim.items[0].hours.unwrap().value.seconds(), 1440);
    assert_eq!(run.of_claim("XY 1"), Vec::<String>::new());
}

#[test]
fn a_sheet_without_any_key_is_one_job() {
    let run = Run::texts(&[("van side.csv", "panel,0-10 mm\nleft front van side,4\n")]);
    assert_eq!(run.intakes.len(), 1);
    let claim = &run.intakes[0].claim;
    assert_eq!(claim.key.kind, KeyKind::Sheet);
    assert!(claim.key.text.ends_with("van side.csv"), "{}", claim.key);
    let problems: Vec<&str> = run.intakes[0].problems.iter().map(|problem| problem.code.id).collect();
    assert_eq!(problems, ["job-without-vehicle"]);
}

#[test]
fn every_key_of_a_vehicle_joins_other_tables_to_it() {
    let run = Run::texts(&[
        ("counts.csv", "reg,panel,0-10 mm\nab12cde,roof,4\n"),
        ("marks.csv", "vin,panel,mark,diameter\nwp0zzz99zts392124,roof,oversize,60 mm\n"),
        ("items.csv", "job no,item,price\nJ7,badge,12\n"),
        (
            "vehicles.csv",
            "claim,job,plate,VIN,make,insurer\nA-1,J7,AB 12 CDE,WP0ZZZ99ZTS392124,Larch,Alder\n",
        ),
    ]);
    assert_eq!(run.intakes.len(), 1);
    let claim = run.claim("A-1");
    let roof = panel(claim, "roof");
    assert_eq!((tally(roof).len(), roof.marks.len(), claim.items.len()), (1, 1, 1));
    assert_eq!(claim.parties.job_number.as_ref().unwrap().value, "J7");
    assert_eq!(run.of_claim("A-1"), Vec::<String>::new());
}

#[test]
fn claims_come_in_the_order_of_their_first_rows() {
    let run = Run::counts("claim,panel,0-10 mm\nA-3,roof,4\nA-1,roof,1\nA-3,hood,2\n");
    let keys: Vec<&str> = run.intakes.iter().map(|intake| intake.claim.key.text.as_str()).collect();
    assert_eq!(keys, ["A-3", "A-1", "A-2"]);
}

#[test]
fn inspections_are_told_apart_by_assessor_date_and_pass() {
    let run = Run::counts(
        "claim,assessor,date of inspection,pass,role,panel,0-10 mm\n\
         A-1,B. Sample,2026-06-20,,second,roof,9\n\
         A-1,A. Sample,2026-06-16,,,roof,4\n\
         A-1,A. Sample,2026-06-16,2,second,roof,5\n",
    );
    let claim = run.claim("A-1");
    let roles: Vec<(Role, Option<&str>)> = claim
        .inspections
        .iter()
        .map(|inspection| (inspection.role(), inspection.assessor.as_ref().map(|name| name.value.as_str())))
        .collect();
    let (a, b) = (Some("A. Sample"), Some("B. Sample"));
    assert_eq!(roles, [(Role::Own, a), (Role::Second, a), (Role::Second, b)]);
    assert_eq!(run.of_claim("A-1"), Vec::<String>::new());
}

#[test]
fn rows_without_an_assessor_join_the_own_inspection() {
    let run = Run::texts(&[
        ("counts.csv", "claim,assessor,date,panel,0-10 mm\nA-1,A. Sample,2026-06-16,roof,4\n"),
        ("marks.csv", "claim,panel,mark,length,cause\nA-1,roof,crease,5 cm,storm\nA-1,hood,dent,20 mm,old\n"),
        ("second.csv", "claim,assessor,role,panel,0-10 mm\nA-1,B. Sample,second,roof,6\n"),
        ("vehicles.csv", crate::VEHICLES),
    ]);
    let claim = run.claim("A-1");
    assert_eq!(claim.inspections.len(), 2);
    let own = &claim.inspections[0];
    assert_eq!(own.panels.iter().map(|panel| panel.marks.len()).collect::<Vec<_>>(), [1, 1]);
    assert_eq!(claim.inspections[1].panels[0].marks.len(), 0);
}

#[test]
fn marks_without_an_assessor_join_the_only_inspection_whatever_its_role() {
    let marks = ("marks.csv", "claim,panel,mark,length\nA-1,roof,crease,5 cm\n");
    let counts = "claim,assessor,date,role,panel,0-10 mm\nA-1,B. Sample,2026-06-20,second,roof,6\n";
    let run = Run::texts(&[marks, ("counts.csv", counts), ("vehicles.csv", crate::VEHICLES)]);
    let claim = run.claim("A-1");
    let roof = panel(claim, "roof");
    assert_eq!((claim.inspections[0].role(), roof.tally.len(), roof.marks.len()), (Role::Second, 1, 1));
    assert_eq!(run.of_claim("A-1"), Vec::<String>::new());
}

#[test]
fn rows_that_may_belong_to_several_inspections_are_asked_about() {
    let marks = ("marks.csv", "claim,panel,mark,length\nA-1,roof,crease,5 cm\n");
    let counts = "claim,assessor,date,role,panel,0-10 mm\n\
                  A-1,B. Sample,2026-06-20,second,roof,6\n\
                  A-1,C. Sample,2026-06-22,agreed,roof,5\n";
    let run = Run::texts(&[marks, ("counts.csv", counts), ("vehicles.csv", crate::VEHICLES)]);
    assert_eq!(run.of_claim("A-1"), ["inspection-open marks.csv row 2"]);
    assert_eq!(run.intake("A-1").problems[0].also.len(), 2);
    let own = counts.replace("second", "").replace("agreed", "");
    let run = Run::texts(&[marks, ("counts.csv", &own), ("vehicles.csv", crate::VEHICLES)]);
    assert_eq!(run.of_claim("A-1"), ["inspection-open marks.csv row 2"]);
}

#[test]
fn counts_that_nobody_signed_are_the_own_ones_beside_a_second_count() {
    let run = Run::texts(&[
        ("counts.csv", "claim,panel,0-10 mm\nA-1,roof,4\n"),
        ("second.csv", "claim,assessor,role,panel,0-10 mm\nA-1,B. Sample,second,roof,6\n"),
        ("vehicles.csv", crate::VEHICLES),
    ]);
    let roles: Vec<Role> =
        run.claim("A-1").inspections.iter().map(stipple::claim::Inspection::role).collect();
    assert_eq!(roles, [Role::Own, Role::Second]);
    assert_eq!(run.of_claim("A-1"), Vec::<String>::new());
}

#[test]
fn every_other_table_is_read_and_kept() {
    let run = Run::texts(&[
        ("counts.csv", "claim,panel,0-10 mm\nA-1,roof,4\n"),
        (
            "parts.csv",
            "claim,panel,part price,fitting hours,refinish,source,date of price\n\
             A-1,bonnet,420.00 EUR,1:30,2.5,quoted by a dealer,2026-06-18\n\
             A-1,bonnet,,,,,\n",
        ),
        (
            "photos.csv",
            "claim,photo,shows,panel,taken\nA-1,p1.jpg,the roof under the board,roof,2026-06-16\n",
        ),
        (
            "overrules.csv",
            "claim,panel,method,decided by,reason,date\n\
             A-1,roof,replace,A. Sample,owner agreed,2026-06-19\n",
        ),
        ("paid.csv", "claim,panel,paid,event,date paid\nA-1,roof,250,storm of 2024,2024-07-01\n"),
        ("vehicles.csv", "claim,make,insurer,event\nA-1,Larch,Alder Mutual,June storm\n"),
    ]);
    assert_eq!(run.of_claim("A-1"), Vec::<String>::new());
    assert_eq!(run.of_files(), Vec::<String>::new());
    let claim = run.claim("A-1");
    let part = &claim.parts[0];
    assert_eq!((part.panel.to_string().as_str(), part.fitting.unwrap().value.seconds()), ("hood", 5400));
    assert_eq!(part.refinish.unwrap().value.to_string(), "2.5");
    assert_eq!(claim.photographs[0].panel.unwrap().value.to_string(), "roof");
    assert_eq!(claim.overrules[0].method.value, Method::Replace);
    assert_eq!(claim.paid_before[0].amount.value.amount.to_string(), "250");
    assert_eq!(claim.event.name.as_ref().unwrap().value, "June storm");
}

#[test]
fn a_table_of_vehicles_holds_every_fact_of_a_claim() {
    let run = Run::texts(&[
        ("counts.csv", "claim,panel,0-10 mm\nA-9,roof,4\n"),
        (
            "vehicles.csv",
            "claim;vin;registration;make;model;year;body type;vehicle class;steering;market;colour;paint kind;odometer;\
             roof equipment;driver assistance;drive;policy;insurer;owner;lot;event;date of loss;place of loss;excess;\
             market value;salvage;policy limit;tax position;tax share;settlement;remark\n\
             A-9;WP0ZZZ99ZTS392124;AB 1;Larch;Finch;2021;saloon;small;lhd;Germany;red;metallic;12 500 km;\
             sunroof;camera;petrol;P-1;Alder Mutual;Ann Sample;Lot 7;June storm;14.06.2026;Springfield;300,00;\
             12.500,00;1.250,50 EUR;20000;business;50 %;total loss, car kept;hail also broke a lamp\n",
        ),
    ]);
    assert_eq!(run.of_claim("A-9"), Vec::<String>::new());
    assert_eq!(run.of_files(), Vec::<String>::new());
    let claim = run.claim("A-9");
    let amounts = [&claim.parties.excess, &claim.parties.market_value, &claim.parties.salvage];
    let amounts: Vec<String> =
        amounts.iter().map(|amount| amount.unwrap().value.amount.to_string()).collect();
    assert_eq!(amounts, ["300.00", "12500.00", "1250.50"]);
    assert_eq!(claim.event.date.unwrap().value.to_string(), "2026-06-14");
    assert_eq!(claim.parties.tax_share.unwrap().value.to_string(), "50");
    assert_eq!(claim.parties.settlement.unwrap().value.name(), "total loss, car kept");
    assert_eq!(claim.vehicle.year.unwrap().value, 2021);
    assert_eq!(claim.remarks[0].text, "hail also broke a lamp");
    let texts = [
        &claim.vehicle.vin,
        &claim.vehicle.class,
        &claim.vehicle.market,
        &claim.vehicle.roof_equipment,
        &claim.parties.policy_number,
        &claim.parties.lot,
        &claim.event.location,
    ];
    assert!(texts.iter().all(|text| text.is_some()), "{claim:?}");
}

#[test]
fn facts_of_the_car_may_stand_beside_its_counts() {
    let run = Run::texts(&[(
        "flat.csv",
        "claim,make,body type,insurer,paint,panel,0-10 mm\n\
         A-1,Larch,coupe,Alder Mutual,broken,LF door,4\n\
         A-1,,,,,roof,2\n",
    )]);
    let claim = run.claim("A-1");
    assert_eq!(claim.vehicle.body.unwrap().value, BodyType::Coupe);
    assert_eq!(panel(claim, "left front door").paint.unwrap().value, Paint::Broken);
    assert_eq!(run.of_claim("A-1"), Vec::<String>::new());
}

#[test]
fn the_page_names_every_column_of_every_table_and_no_other() {
    let page = include_str!("../../src/read/README.md");
    let quoted = |text: &str| {
        text.split('`').skip(1).step_by(2).map(str::to_owned).collect::<std::collections::BTreeSet<_>>()
    };
    let everywhere = quoted(page);
    let forms = || stipple::read::forms().iter().chain(stipple::read::workshop_forms());
    for form in forms() {
        for column in form.columns {
            let is_named =
                everywhere.contains(column.id) || column.words.iter().any(|word| everywhere.contains(*word));
            assert!(is_named, "{}: {}", form.name, column.id);
        }
    }
    let is_known = |name: &String| {
        forms().any(|form| {
            form.columns.iter().any(|column| column.id == name || column.words.contains(&name.as_str()))
        })
    };
    // Other tables of the page list what cells may say.
    let tables = page.split("\n## Tables\n").nth(1).and_then(|rest| rest.split("\n## ").next()).unwrap();
    for row in tables.lines().filter(|line| line.starts_with("| ")) {
        let unknown: Vec<String> = quoted(row).into_iter().filter(|name| !is_known(name)).collect();
        assert_eq!(unknown, Vec::<String>::new(), "{row}");
    }
}

#[test]
fn a_sheet_in_somebody_elses_words_is_read() {
    let run = Run::texts(&[
        (
            "sheet.csv",
            "Storm of 14 June;;;;;;;;\n\
             Claim No.;Inspector;Body panel;Hand;Dents < 10mm;10 to 20 mm (qty);>20mm;Metal;Notes\n\
             H-7;A. Sample;Bonnet;;31;4;0;alloy;soft\n\
             H-7;A. Sample;Front wing;N/S;6;;;;\n\
             H-7;A. Sample;Door, front;RH;2;1;;;\n\
             H-7;A. Sample;Boot;;;;;;not reached\n\
             Total;;;;39;5;0;;\n",
        ),
        (
            "cars.csv",
            "Insurance company\tclaim ref\tReg.\tManufacturer\tBody\tCountry\tDeductible EUR\tLoss date\n\
             Alder Mutual\tH-7\tAB 1\tLarch\tSaloon\tUK\t250\t14.06.2026\n",
        ),
    ]);
    assert_eq!(run.of_files(), Vec::<String>::new());
    assert_eq!(run.of_claim("H-7"), Vec::<String>::new());
    let claim = run.claim("H-7");
    let panels: Vec<String> =
        claim.inspections[0].panels.iter().map(|panel| panel.panel.to_string()).collect();
    assert_eq!(panels, ["hood", "left fender", "right front door", "trunk lid"]);
    let sizes: Vec<_> = panel(claim, "hood").tally.iter().map(|entry| entry.size.interval.unwrap()).collect();
    let edges: Vec<_> =
        sizes.iter().map(|size| (size.low.to_string(), size.high.map(|high| high.to_string()))).collect();
    let high = |text: &str| Some(text.to_owned());
    assert_eq!(
        edges,
        [("0 mm".into(), high("10 mm")), ("10 mm".into(), high("20 mm")), ("20 mm".into(), None)]
    );
    assert_eq!(claim.parties.excess.unwrap().value.currency, Currency::from_code("EUR"));
}
