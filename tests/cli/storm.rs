//! A small invented storm as people write it, and the program run on it.

use assert_cmd::Command;
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Child, Stdio};
use tempfile::TempDir;

/// The schedule: each band by itself, 20 % tax, at most 60 dents.
const SCHEDULE: [(&str, &str); 8] = [
    (
        "terms.csv",
        "term,value\nschedule,Invented prices\nedition,2026\nsource,invented for tests\nholds for,none; any\n\
         currency,EUR\nvalid from,2026-01-01\nrounding,half away from zero\nmixed sizes,each band\n",
    ),
    ("taxes.csv", "tax on,percent\nlabour,20\nparts,20\npaint material,20\n"),
    ("labour.csv", "labour,per hour\npaintless,80.00\n"),
    ("sizes.csv", "size band,from mm,to mm\nsmall,0,10\nmiddle,10,20\n"),
    ("counts.csv", "count band,from dents,to dents\n1 to 10,1,10\n11 to 50,11,50\n"),
    (
        "panels.csv",
        "panel,rated as,lies,joined\nhood,top,horizontal,bolted\nroof,top,horizontal,welded\n\
         front door,side,vertical,bolted\n",
    ),
    (
        "rates.csv",
        "rated as,size band,count band,amount\ntop,small,1 to 10,45.00\ntop,small,11 to 50,90.00\n\
         top,middle,1 to 10,60.00\ntop,middle,11 to 50,130.00\nside,small,1 to 10,40.00\nside,small,11 to 50,80.00\n\
         side,middle,1 to 10,55.00\nside,middle,11 to 50,115.00\n",
    ),
    ("limits.csv", "limit,measures,beyond,then\ntoo many dents,dents,60,refer to a person\n"),
];

/// Vehicles: a claim with an excess, one without, and a job without an insurer.
const VEHICLES: &str = "claim,job,insurer,owner,make,body type,date of loss,excess\n\
    HC-1,,Example Mutual,A. Owner,Example,hatchback,2026-06-14,50.00\n\
    HC-2,,Example Mutual,B. Owner,Example,hatchback,2026-06-14,0\n\
    ,J-7,,C. Owner,Example,hatchback,2026-06-14,\n";

/// Counts: HC-1 is 150.00 and 145.00 net, HC-2 has a roof of too many dents, J-7 a door.
const COUNTS: &str = "claim,job,panel,date of inspection,0-10 mm,10-20 mm\n\
    HC-1,,hood,2026-06-20,12,4\n\
    HC-1,,roof,2026-06-20,30,\n\
    HC-1,,left front door,2026-06-20,,3\n\
    HC-2,,hood,2026-06-20,2,0\n\
    HC-2,,roof,2026-06-20,50,30\n\
    ,J-7,right front door,2026-06-20,9,\n";

/// A folder with the storm in it.
pub struct Storm {
    folder: TempDir,
}

impl Storm {
    /// The storm as it is.
    pub fn new() -> Self {
        Self::with(VEHICLES, COUNTS)
    }

    /// The storm with other vehicles or counts.
    pub fn with(vehicles: &str, counts: &str) -> Self {
        let storm = Self { folder: TempDir::new().unwrap() };
        storm.put("storm/vehicles.csv", vehicles);
        storm.put("storm/counts.csv", counts);
        for (name, text) in SCHEDULE {
            storm.put(&format!("prices/{name}"), text);
        }
        storm
    }

    /// The storm with one text of its tables replaced by another.
    pub fn but(old: &str, new: &str) -> Self {
        assert!(VEHICLES.contains(old) || COUNTS.contains(old), "{old}");
        Self::with(&VEHICLES.replace(old, new), &COUNTS.replace(old, new))
    }

    /// A path in its folder.
    pub fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    /// Writes a file.
    pub fn put(&self, name: &str, text: &str) {
        let path = self.path(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    }

    /// Runs the program in its folder.
    pub fn run(&self, line: &str) -> Ran {
        self.run_with(line, &[])
    }

    /// Runs it with further arguments, which may hold spaces.
    pub fn run_with(&self, line: &str, more: &[&str]) -> Ran {
        let output = Command::new(env!("CARGO_BIN_EXE_stipple"))
            .args(line.split_whitespace())
            .args(more)
            .current_dir(self.folder.path())
            .env_remove("NO_COLOR")
            .output()
            .unwrap();
        Ran {
            code: output.status.code(),
            out: String::from_utf8(output.stdout).unwrap(),
            err: String::from_utf8(output.stderr).unwrap(),
        }
    }

    /// Begins a run of the program in its folder, which reads what is written to it. Shells start what runs in the
    /// background deaf to Ctrl-C, and so would be tests that run there: where the system can, that is undone.
    pub fn begin(&self, line: &str) -> Child {
        const PROGRAM: &str = env!("CARGO_BIN_EXE_stipple");
        let mut command = if cfg!(target_os = "linux") {
            let mut command = std::process::Command::new("env");
            command.args(["--default-signal=INT", PROGRAM]);
            command
        } else {
            std::process::Command::new(PROGRAM)
        };
        command
            .args(line.split_whitespace())
            .current_dir(self.folder.path())
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap()
    }

    /// The rows of a written table, by heading.
    pub fn rows(&self, name: &str) -> Vec<BTreeMap<String, String>> {
        rows(&self.path(name))
    }

    /// Every file below a folder with its bytes.
    pub fn files(&self, name: &str) -> BTreeMap<String, Vec<u8>> {
        fn gather(folder: &Path, before: &str, files: &mut BTreeMap<String, Vec<u8>>) {
            for entry in fs::read_dir(folder).unwrap() {
                let path = entry.unwrap().path();
                let name = format!("{before}{}", path.file_name().unwrap().to_str().unwrap());
                if path.is_dir() {
                    gather(&path, &format!("{name}/"), files);
                } else {
                    files.insert(name, fs::read(&path).unwrap());
                }
            }
        }
        let mut files = BTreeMap::new();
        gather(&self.path(name), "", &mut files);
        files
    }
}

/// The rows of a CSV file, by heading.
pub fn rows(path: &Path) -> Vec<BTreeMap<String, String>> {
    let mut reader = csv::Reader::from_path(path).unwrap();
    let headings = reader.headers().unwrap().clone();
    reader
        .records()
        .map(|row| headings.iter().map(str::to_owned).zip(row.unwrap().iter().map(str::to_owned)).collect())
        .collect()
}

/// What a run printed, and how it ended.
#[derive(Debug)]
pub struct Ran {
    pub code: Option<i32>,
    pub out: String,
    pub err: String,
}

impl Ran {
    /// Makes sure that it ended with a code.
    pub fn ended(self, code: i32) -> Self {
        assert_eq!(self.code, Some(code), "{}\n{}", self.out, self.err);
        self
    }
}
