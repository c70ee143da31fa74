//! Photographs that are listed for a claim, and their files.

use super::{Code, Problem, Severity};
use crate::problem::Place;
use crate::quantity::Date;

codes! {
    PHOTOGRAPH_MISSING = "photograph-missing", Warning, "a photograph is listed and its file is not there",
        "A list of photographs names a file, and there is none of that name in the folder of the list or below it. The \
         claim is assessed; the photograph stays listed, and counts for nothing that an insurer requires.\n\nPut the file \
         beside the list, or correct its name; capitals and the ending (`.jpg`, `.jpeg`) count. A path is one below the \
         folder of the list: `photographs/A-1_roof.jpg`. Paths that lead elsewhere are not followed.";
    PHOTOGRAPH_UNREADABLE = "photograph-unreadable", Warning, "a file is listed as a photograph and is none, or not whole",
        "The file begins with none of the signs of JPEG, PNG, WebP or HEIF, or it ends before its picture does: copying it \
         was broken off, or it is something else under that name. The claim is assessed; the photograph counts for nothing \
         that an insurer requires.\n\nOpen the file to see what it is, and copy it once more from the camera.\n\nOnly the \
         signs and the end of the file are looked at, not every point of the picture.";
    PHOTOGRAPH_IN_TWO_CLAIMS = "photograph-in-two-claims", Warning, "one photograph is listed for two claims",
        "Files of two claims have the same bytes (the same SHA-256), under one name or two. Both rows are named, at either \
         claim. Both claims are assessed; but one picture shows one car.\n\nTake it out of the list of the claim that it \
         does not show. A picture of a whole row of cars, listed for each of them on purpose, may stay.";
    PHOTOGRAPH_DATE = "photograph-date", Warning, "the day of a photograph does not fit",
        "The day that the camera wrote into the photograph (or, where it wrote none, the day in the list) is before the \
         date of loss, or after the day of the run (`--date`); or list and camera say different days. The claim is \
         assessed.\n\nLook whether the photograph is of this car and this storm. A camera whose clock was never set says \
         any day: note that for the insurer. A day in the list that was mistyped is corrected there.";
    PHOTOGRAPH_OF_OTHER_PANEL = "photograph-of-other-panel", Warning, "a photograph shows a panel that is not in the claim",
        "The list says which panel the photograph shows, and no inspection of the claim has that panel. Either its counts \
         are missing, or the photograph belongs to another panel or car. The claim is assessed without that \
         panel.\n\nCorrect the panel in the list, or add the counts.";
}

/// No file of that name; why, where that is more than that it is not there.
pub fn photograph_missing(place: Place, file: &str, why: Option<&str>) -> Problem {
    let message = why.unwrap_or("there is no such file in the folder of the list");
    Problem::new(&PHOTOGRAPH_MISSING, message)
        .at(place)
        .written(file)
        .help("put the file beside the list, or correct its name")
}

/// Not a photograph, or not all of it.
pub fn photograph_unreadable(place: Place, file: &str, why: &str) -> Problem {
    Problem::new(&PHOTOGRAPH_UNREADABLE, format!("the file is no whole photograph: {why}"))
        .at(place)
        .written(file)
        .help("open it to see what it is, and copy it once more")
}

/// A panel of which the claim has no counts.
pub fn photograph_of_other_panel(place: Place, panel: &str) -> Problem {
    Problem::new(
        &PHOTOGRAPH_OF_OTHER_PANEL,
        format!("the claim has no counts of the {panel} that this shows"),
    )
    .at(place)
    .help("correct the panel, or add its counts")
}

/// Taken before the damage; whether the camera says so, or the list.
pub fn photograph_before_loss(place: Place, by_camera: bool, taken: Date, loss: (Date, Place)) -> Problem {
    let message = format!("{} it was taken on {taken}, before the loss on {}", who(by_camera), loss.0);
    Problem::new(&PHOTOGRAPH_DATE, message).at(place).and(loss.1)
}

/// Taken after the day of the run.
pub fn photograph_after_run(place: Place, by_camera: bool, taken: Date, run: Date) -> Problem {
    let message = format!("{} it was taken on {taken}, and this run is of {run}", who(by_camera));
    Problem::new(&PHOTOGRAPH_DATE, message).at(place)
}

/// List and camera disagree.
pub fn photograph_dates_differ(place: Place, listed: Date, taken: Date) -> Problem {
    let message = format!("the list says that it was taken on {listed}, the camera says {taken}");
    Problem::new(&PHOTOGRAPH_DATE, message).at(place)
}

fn who(by_camera: bool) -> &'static str {
    if by_camera { "the camera says that" } else { "the list says that" }
}

/// The same picture in other claims: their keys and rows, and how many more there are.
pub fn photograph_in_two_claims(place: Place, others: &[(&str, Place)], more: usize) -> Problem {
    let message = format!("the same photograph is also listed for {}", super::named_others(others, more));
    let problem =
        Problem::new(&PHOTOGRAPH_IN_TWO_CLAIMS, message).at(place).help("which of the cars does it show?");
    others.iter().fold(problem, |problem, (_, other)| problem.and(*other))
}
