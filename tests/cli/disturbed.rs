//! Runs that something gets in the way of: killed, interrupted, two at once, too little memory. The earlier output stays
//! whole, and the next run mends what is left.

use crate::storm::Storm;
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::fs;
use std::io::Write as _;
use std::process::Command;
use std::time::{Duration, Instant};

const ASSESS: &str = "assess storm --schedule prices --out out --write claims,panels,work-orders";

/// A storm whose counts are long enough to be read some claims at a time.
fn long_storm(dents: usize) -> Storm {
    let mut vehicles = "claim,insurer,make,body type,date of loss,excess\n".to_owned();
    let mut counts = "claim,panel,date of inspection,0-10 mm,10-20 mm,remark\n".to_owned();
    for claim in 0..900 {
        let _ = writeln!(vehicles, "HC-{claim:04},Example Mutual,Example,hatchback,2026-06-14,50.00");
        for (panel, more) in ["hood", "roof", "left front door", "right front door"].into_iter().zip(0..) {
            let remark = "an invented remark of some length ".repeat(2);
            let _ =
                writeln!(counts, "HC-{claim:04},{panel},2026-06-20,{},{},{remark}", dents + claim % 9, more);
        }
    }
    Storm::with(&vehicles, &counts)
}

/// Names of what stands in the storm's folder, hidden folders of runs without their number.
fn beside(storm: &Storm) -> Vec<String> {
    let entries = fs::read_dir(storm.path("")).unwrap();
    let mut names: Vec<String> =
        entries.map(|entry| entry.unwrap().file_name().to_str().unwrap().to_owned()).collect();
    names.sort();
    names
}

type Files = BTreeMap<String, Vec<u8>>;

/// Two outputs of one storm, after 6 and after 7 dents more; the second stands in `out`, the counts are those of the first.
fn two_outputs() -> (Storm, Files, Files) {
    let storm = long_storm(6);
    storm.run(ASSESS).ended(0);
    let first = storm.files("out");
    let counts = fs::read_to_string(storm.path("storm/counts.csv")).unwrap();
    let other = fs::read_to_string(long_storm(7).path("storm/counts.csv")).unwrap();
    storm.put("storm/counts.csv", &other);
    storm.run(ASSESS).ended(0);
    storm.put("storm/counts.csv", &counts);
    let second = storm.files("out");
    assert_ne!(first["claims.csv"], second["claims.csv"]);
    (storm, first, second)
}

/// Ends runs at many points, each over the earlier output, and sees what stands after each.
fn ended_by(signal: &str, points: u32) {
    let (storm, new, earlier) = two_outputs();
    let begun = Instant::now();
    storm.run(ASSESS).ended(0);
    let took = begun.elapsed();
    let mut left_earlier = 0;
    for part in 0..points {
        // Each begins over an output that differs from its own.
        fs::remove_dir_all(storm.path("out")).unwrap();
        for (name, bytes) in &earlier {
            let path = storm.path("out").join(name);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, bytes).unwrap();
        }
        let mut run = storm.begin(ASSESS);
        std::thread::sleep(took * part * 11 / (points * 10));
        let killed = Command::new("kill").args([signal, &run.id().to_string()]).output().unwrap();
        assert!(killed.status.success() || run.try_wait().unwrap().is_some());
        run.wait().unwrap();
        // While the new output takes the earlier one's place, the earlier one may stand beside it for a moment.
        if storm.path("out").exists() {
            let stands = storm.files("out");
            assert!(stands == new || stands == earlier, "{:?}", stands.keys().take(5).collect::<Vec<_>>());
            left_earlier += usize::from(stands == earlier);
        } else {
            assert!(
                beside(&storm).iter().any(|name| name.starts_with(".out.earlier-")),
                "{:?}",
                beside(&storm)
            );
        }
        storm.run(ASSESS).ended(0);
        assert!(storm.files("out") == new);
        assert_eq!(beside(&storm), ["out", "prices", "storm"], "at point {part}");
    }
    assert!(left_earlier > 0);
}

#[test]
fn a_run_that_is_killed_at_any_point_leaves_a_whole_output_and_the_next_one_mends() {
    ended_by("-KILL", 8);
}

#[test]
fn a_run_that_is_interrupted_leaves_nothing_half_done() {
    ended_by("-INT", 3);
}

#[test]
fn a_second_run_into_a_folder_is_refused_while_the_first_one_writes() {
    let storm = long_storm(6);
    let counts = fs::read(storm.path("storm/counts.csv")).unwrap();
    // It has begun, and waits for the rest of what it reads.
    let mut first = storm
        .begin("assess - storm/vehicles.csv --schedule prices --out out --write claims,panels,work-orders");
    let until = Instant::now() + Duration::from_mins(1);
    while !beside(&storm).iter().any(|name| name.starts_with(".out.writing-")) && Instant::now() < until {
        std::thread::sleep(Duration::from_millis(5));
    }
    let mut input = first.stdin.take().unwrap();
    input.write_all(&counts[..1000]).unwrap();
    std::thread::sleep(Duration::from_millis(50));
    let second = storm.run(ASSESS).ended(2);
    assert!(second.err.contains("folder-busy"), "{}", second.err);
    input.write_all(&counts[1000..]).unwrap();
    drop(input);
    let ended = first.wait_with_output().unwrap();
    let screen = String::from_utf8(ended.stdout).unwrap();
    assert_eq!(ended.status.code(), Some(0), "{screen}");
    assert!(screen.contains("standard input through a temporary file"), "{screen}");
    assert_eq!(beside(&storm), ["out", "prices", "storm"]);
    // What came through standard input gives what the file gives, but for its name.
    let through = storm.files("out");
    storm.run(ASSESS).ended(0);
    let named = storm.files("out");
    let text = |files: &Files, name: &str| String::from_utf8(files[name].clone()).unwrap();
    assert_eq!(
        text(&through, "claims.csv")
            .replace("standard input; storm/vehicles.csv", "storm/counts.csv; storm/vehicles.csv"),
        text(&named, "claims.csv")
    );
    assert!(!through.contains_key("standard-input"));
}

#[test]
fn a_long_file_gives_the_same_bytes_on_any_number_of_threads() {
    let storm = long_storm(6);
    storm.run(&format!("{ASSESS} --threads 1")).ended(0);
    let one = storm.files("out");
    storm.run(&format!("{ASSESS} --threads 5")).ended(0);
    assert!(storm.files("out") == one);
    assert_eq!(storm.rows("out/claims.csv").len(), 900);
}

#[test]
fn a_run_without_enough_memory_says_so_and_leaves_the_earlier_output() {
    let (storm, new, earlier) = two_outputs();
    let limited = |kilobytes: u32| {
        let script = format!("ulimit -v {kilobytes}; exec \"$0\" {ASSESS} --threads 1");
        let run = Command::new("sh")
            .args(["-c", &script, env!("CARGO_BIN_EXE_stipple")])
            .current_dir(storm.path(""))
            .output()
            .unwrap();
        (run.status.success(), String::from_utf8_lossy(&run.stderr).into_owned())
    };
    // The program itself fits into less; its buffers do not.
    let refused: Vec<String> = (20..60)
        .map(|step| limited(step * 1000))
        .take_while(|(done, _)| !done)
        .map(|(_, said)| said)
        .collect();
    assert!(refused.iter().any(|said| said.contains("memory")), "{refused:?}");
    let stands = storm.files("out");
    assert!(stands == new || stands == earlier);
    storm.run(ASSESS).ended(0);
    assert!(storm.files("out") == new);
    assert_eq!(beside(&storm), ["out", "prices", "storm"]);
}
