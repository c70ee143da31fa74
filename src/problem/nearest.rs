/// The known words nearest to one that is not known, at most three, best first; none when nothing is near.
///
/// Nearness is Damerau-Levenshtein distance in lower case, at most a third of the longer word and never more
/// than three edits, so that a suggestion is a likely slip and not a lottery.
pub fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Vec<&'a str> {
    let word = word.trim().to_lowercase();
    let letters = word.chars().count();
    let mut near: Vec<(usize, &str)> = known
        .into_iter()
        .filter_map(|candidate| {
            let lower = candidate.to_lowercase();
            let (here, there) = (letters, lower.chars().count());
            let most = (here.max(there) / 3).clamp(1, 3);
            // As many edits as the lengths differ by are needed at least; a cell may hold thousands of letters.
            if here.abs_diff(there) > most {
                return None;
            }
            let distance = strsim::damerau_levenshtein(&word, &lower);
            (distance <= most).then_some((distance, candidate))
        })
        .collect();
    near.sort_unstable();
    near.dedup();
    near.into_iter().take(3).map(|(_, candidate)| candidate).collect()
}
