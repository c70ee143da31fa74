//! What keeps a plan from being made, and what is odd about a workshop's tables: each told with its cell.

use crate::command::plan;
use std::fs;
use std::path::PathBuf;
use tempfile::TempDir;

const TECHNICIANS: &str = "technician,skills,hours a day\nA,all,8\n";

/// A folder with the private job of the demonstration, its schedule and tables of a workshop.
struct Job {
    dir: TempDir,
}

impl Job {
    fn with(tables: &[(&str, &str)]) -> Self {
        let dir = TempDir::new().unwrap();
        for (name, table) in tables {
            fs::write(dir.path().join(name), table).unwrap();
        }
        Self { dir }
    }

    fn out(&self) -> PathBuf {
        self.dir.path().join("planned")
    }

    /// The exit code, what was printed, and what was told.
    fn run(&self, date: Option<&str>) -> (i32, String, String) {
        let tables = self.dir.path().to_str().unwrap();
        let paths = ["demo_claims/private_job", "demo_claims/schedules/house_prices.xlsx", tables];
        let ran = plan(&paths, date, &self.out());
        let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
        (ran.status.code().unwrap(), text(ran.stdout), text(ran.stderr))
    }

    /// The same from a Monday on.
    fn told(&self) -> (i32, String, String) {
        self.run(Some("2025-07-07"))
    }
}

#[test]
fn without_a_first_day_nothing_is_planned() {
    let job = Job::with(&[("t.csv", TECHNICIANS)]);
    let (code, _, told) = job.run(None);
    assert_eq!(code, 2);
    assert!(told.contains("plan-without-first-day"), "{told}");
    assert!(!job.out().exists());
}

#[test]
fn without_technicians_or_a_working_day_nothing_is_planned() {
    let (code, _, told) = Job::with(&[]).told();
    assert_eq!(code, 2);
    assert!(told.contains("plan-without-technicians"), "{told}");
    let week: String = ["monday", "tue", "wed", "thu", "fri"].map(|day| format!("{day},no\n")).concat();
    let job = Job::with(&[("t.csv", TECHNICIANS), ("week.csv", &format!("weekday,worked\n{week}"))]);
    let (code, _, told) = job.told();
    assert_eq!(code, 2);
    assert!(told.contains("plan-without-working-day"), "{told}");
    assert!(!job.out().exists());
}

#[test]
fn a_row_that_cannot_be_used_is_told_and_the_rest_is_planned() {
    for (code, name, table) in [
        ("technician-twice", "t.csv", "technician,skills,hours a day\nA,all,8\na,paint,8\n"),
        ("technician-unknown", "off.csv", "technician,off from\nZ,2025-07-08\n"),
        ("days-off-reversed", "off.csv", "off from,off until\n2025-07-09,2025-07-08\n"),
        ("pace-twice", "pace.csv", "paintless an hour\n88 EUR\n95 EUR\n"),
        ("row-incomplete", "t.csv", "technician,skills,hours a day\nA,all,8\nB,paint,\n"),
        ("word-unknown", "t.csv", "technician,skills,hours a day\nA,all,8\nB,pant,8\n"),
        ("number-unreadable", "t.csv", "technician,skills,hours a day\nA,all,8\nB,paint,25\n"),
        ("number-unreadable", "pace.csv", "paintless an hour\n88\n"),
        ("date-impossible", "off.csv", "off from\n2025-02-30\n"),
        ("row-incomplete", "in.csv", "claim,arrives\n,2025-07-10\nx,2025-07-10\n"),
    ] {
        let job = Job::with(&[("t.csv", TECHNICIANS), (name, table)]);
        let (ended, printed, told) = job.told();
        assert!(told.contains(code), "{code}: {told}");
        assert!(told.contains(name), "{code}: {told}");
        assert_eq!(ended, 1, "{code}");
        assert!(
            printed.contains("Planned     1 car") || printed.contains("paintless an hour"),
            "{code}: {printed}"
        );
    }
}

#[test]
fn a_list_of_a_thousand_people_is_cut_off_and_told() {
    let rows: String = (0..1001).map(|number| format!("P{number},all,8\n")).collect::<Vec<_>>().concat();
    let (code, printed, told) =
        Job::with(&[("t.csv", &format!("technician,skills,hours a day\n{rows}"))]).told();
    assert_eq!(code, 1);
    assert!(told.contains("technicians-too-many"), "{told}");
    assert!(printed.contains("999 technicians"), "{printed}");
}

#[test]
fn parts_of_a_car_that_is_not_planned_are_told_and_hold_nothing_up() {
    let job = Job::with(&[
        ("t.csv", TECHNICIANS),
        ("pace.csv", "paintless an hour\n88 EUR\n"),
        ("in.csv", "claim,arrives\nVM-25-411,2025-07-10\n"),
    ]);
    let (code, printed, told) = job.told();
    assert_eq!(code, 0, "{told}");
    assert!(told.contains("arrival-of-no-claim"), "{told}");
    assert!(!printed.contains("waits for parts"), "{printed}");
}

#[test]
fn a_car_that_nobody_can_work_on_is_named_with_what_is_missing() {
    let pace = ("pace.csv", "paintless an hour\n88 EUR\n");
    for (why, tables) in [
        ("no technician for fitting", vec![("t.csv", "technician,skills,hours a day\nA,pdr,8\n"), pace]),
        (
            "no bay for paintless",
            vec![("t.csv", TECHNICIANS), ("b.csv", "bay,used for\nb,strip and refit\n"), pace],
        ),
    ] {
        let (code, printed, told) = Job::with(&tables).told();
        assert_eq!(code, 0, "{told}");
        assert!(printed.contains(&format!("{why}: DEMO 070")), "{printed}");
        assert!(printed.contains("Planned     0 cars;"), "{printed}");
    }
}

#[test]
fn absurd_tables_end_without_a_panic() {
    let job = Job::with(&[
        ("t.csv", "technician,skills,hours a day\nA,all,0.0003\nB,all,24\n=1+1,all,8\n<b>x</b>,all,8\n"),
        ("off.csv", "technician,off from,off until\nB,0001-01-01,9999-12-31\n,1990-01-01,1990-02-01\n"),
        ("pace.csv", "paintless an hour\n0.0001 EUR\n"),
        ("in.csv", "registration,arrives\nDEMO 070,9999-12-31\n"),
        ("b.csv", "bay,used for,how many\nb,any,99\n"),
    ]);
    let (code, printed, told) = job.told();
    assert!(code == 0 || code == 1, "{told}");
    assert!(!told.contains("panicked"), "{told}");
    assert!(printed.contains("Planned     1 car"), "{printed}");
    let last = Job::with(&[("t.csv", TECHNICIANS), ("pace.csv", "paintless an hour\n88 EUR\n")]);
    let (code, printed, _) = last.run(Some("9999-12-31"));
    assert_eq!(code, 0);
    assert!(printed.contains("it does not end within ten years: DEMO 070"), "{printed}");
}
