//! Looking at the files of listed photographs: which are there, whole, and of a day that fits.
//!
//! Only a command that reports on photographs looks; the engine never does. What a file is stays in the claim.

mod image;

use crate::claim::{Intake, Photograph, Place};
use crate::problem::{Problem, Sources, catalogue::photographs as say};
use crate::quantity::Date;
use rayon::prelude::*;
use std::path::{Component, Path, PathBuf};

/// Looks at the photographs of claims, on all cores. `run` is the day of the run, if one was said.
pub fn look_at_all(intakes: &mut [Intake], sources: &Sources, run: Option<Date>) {
    intakes
        .par_iter_mut()
        .filter(|intake| !intake.claim.photographs.is_empty())
        .for_each(|intake| look_at(intake, sources, run));
}

/// Looks at the photographs of one claim.
pub fn look_at(intake: &mut Intake, sources: &Sources, run: Option<Date>) {
    let Intake { claim, problems } = intake;
    let panels: Vec<_> =
        claim.inspections.iter().flat_map(|inspection| &inspection.panels).map(|count| count.panel).collect();
    let loss = claim.event.date.map(|date| (date.value, date.place));
    let mut found = Vec::new();
    for photograph in &mut claim.photographs {
        let (file, at) = (photograph.file.value.as_str(), photograph.file.place);
        if let Some(panel) =
            photograph.panel.filter(|panel| !panels.is_empty() && !panels.contains(&panel.value))
        {
            found.push(say::photograph_of_other_panel(panel.place, &panel.value.to_string()));
        }
        match path_of(photograph, sources) {
            None => {
                let why = "the path leads out of the folder of the list";
                found.push(say::photograph_missing(at, file, Some(why)));
            }
            Some(path) => match image::look(&path) {
                Ok(image) => photograph.image = Some(image),
                Err(image::Fault::Missing) => found.push(say::photograph_missing(at, file, None)),
                Err(image::Fault::Unreadable(why)) => found.push(say::photograph_unreadable(at, file, &why)),
            },
        }
        found.extend(odd_days(photograph, loss, run));
    }
    let key = &claim.key.text;
    problems.extend(found.into_iter().map(|problem| problem.of_claim(key.as_str())));
    problems.sort_by(|a, b| (a.place, a.code.id, &a.message).cmp(&(b.place, b.code.id, &b.message)));
}

/// Where the file of a photograph is: below the folder of its list. Nothing for a path that leads elsewhere.
pub fn path_of(photograph: &Photograph, sources: &Sources) -> Option<PathBuf> {
    let list = Path::new(&sources.get(photograph.place.source).file);
    // Lists that were written under Windows part folders by backslashes.
    let written = photograph.file.value.replace('\\', "/");
    let written = Path::new(&written);
    let is_below = |part: Component<'_>| matches!(part, Component::Normal(_) | Component::CurDir);
    let has_drive = written.to_string_lossy().contains(':');
    (written.components().all(is_below) && !has_drive)
        .then(|| list.parent().unwrap_or_else(|| Path::new("")).join(written))
}

/// What does not fit about the day of a photograph: the camera's, else the list's.
fn odd_days(photograph: &Photograph, loss: Option<(Date, Place)>, run: Option<Date>) -> Vec<Problem> {
    let camera = photograph.image.as_ref().and_then(|image| image.taken);
    let listed = photograph.date;
    let place = listed.map_or(photograph.file.place, |date| date.place);
    let Some(taken) = camera.or(listed.map(|date| date.value)) else { return Vec::new() };
    let mut odd = Vec::new();
    if let Some(listed) = listed.filter(|listed| listed.value != taken) {
        odd.push(say::photograph_dates_differ(place, listed.value, taken));
    }
    if let Some(loss) = loss.filter(|(loss, _)| taken < *loss) {
        odd.push(say::photograph_before_loss(place, camera.is_some(), taken, loss));
    }
    if let Some(run) = run.filter(|run| taken > *run) {
        odd.push(say::photograph_after_run(place, camera.is_some(), taken, run));
    }
    odd
}
