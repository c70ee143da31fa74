//! An earlier run, as far as a later one is held against it: the cars of its claims.

use super::reception::receive_listing;
use crate::batch::{EarlierCars, Source, names_of_car};
use crate::problem::{Problem, catalogue::output};
use clap::Args;
use std::path::PathBuf;

/// The listing of a run's claims.
const CLAIMS: &str = "claims.csv";

/// An earlier run.
#[derive(Debug, Args)]
pub struct EarlierArgs {
    /// The output folder of an earlier run of `assess`. Its cars that stand in other claims now are told: the same damage may
    /// be claimed twice, or another storm met the same car.
    #[arg(long, value_name = "DIR")]
    earlier: Option<PathBuf>,
}

impl EarlierArgs {
    /// The cars of its claims; none where no run was given.
    pub fn cars(&self) -> Result<EarlierCars, Problem> {
        let mut cars = EarlierCars::default();
        let Some(folder) = &self.earlier else { return Ok(cars) };
        let listing = folder.join(CLAIMS);
        if !listing.is_file() {
            return Err(output::no_earlier_run(&listing.display().to_string()));
        }
        let received = receive_listing(&listing);
        for group in 0..received.groups() {
            for intake in received.group(group)? {
                for (kind, name, place) in names_of_car(&intake.claim) {
                    let key = intake.claim.key.text.clone();
                    cars.add((kind, name), key, received.sources.short(place));
                }
            }
        }
        if cars.is_empty() { Err(output::no_earlier_run(&listing.display().to_string())) } else { Ok(cars) }
    }
}
