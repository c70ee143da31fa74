use super::{length, number, said};
use crate::schedule::{CountBand, Schedule, SizeBand};

/// A count band by its name, with its counts where the name does not say them: "few (1 to 10)".
pub fn count_band(band: &CountBand) -> String {
    let name = said(&band.name);
    let from = number(band.from.into());
    let counts = match band.to {
        Some(to) if says(&name, &[band.from.to_string(), to.to_string()]) => return name,
        None if says(&name, &[band.from.to_string()]) => return name,
        Some(to) => format!("{from} to {}", number(to.into())),
        None => format!("{from} or more"),
    };
    format!("{name} ({counts})")
}

/// Which dents belong to each size band whose name does not say it: "Size bands: small up to 10 mm; middle over 10 mm to
/// 20 mm."; `None` where all names do.
pub fn size_bands(schedule: &Schedule) -> Option<String> {
    let bands: Vec<String> = schedule.sizes.iter().filter_map(edges).collect();
    (!bands.is_empty()).then(|| format!("Size bands: {}.", bands.join("; ")))
}

fn edges(band: &SizeBand) -> Option<String> {
    let (name, low, high) = (said(&band.name), length(band.low), length(band.high));
    let bare = |edge: &str| edge.trim_end_matches(|c: char| !c.is_ascii_digit()).to_owned();
    if says(&name, &[bare(&low), bare(&high)]) {
        return None;
    }
    // Its lower edge is the band's below it; only at zero there is none.
    let over = if bare(&low) == "0" { String::new() } else { format!("over {low} ") };
    let to = if over.is_empty() { "up to" } else { "to" };
    Some(format!("{name} {over}{to} {high}"))
}

/// Whether all of these numbers stand in a name.
fn says(name: &str, numbers: &[String]) -> bool {
    let in_name: Vec<&str> = name.split(|c: char| !c.is_ascii_digit() && c != '.').collect();
    numbers.iter().all(|number| in_name.contains(&number.as_str()))
}
