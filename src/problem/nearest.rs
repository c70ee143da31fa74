/// The known words nearest to one that is not known, at most three, best first; none when nothing is near.
///
/// Nearness is Damerau-Levenshtein distance in lower case, at most a third of the longer word and never more
/// than three edits, so that a suggestion is a likely slip and not a lottery.
pub fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Vec<&'a str> {
    let word = word.trim().to_lowercase();
    let mut near: Vec<(usize, &str)> = known
        .into_iter()
        .filter_map(|candidate| {
            let lower = candidate.to_lowercase();
            let longer = word.chars().count().max(lower.chars().count());
            let distance = strsim::damerau_levenshtein(&word, &lower);
            (distance <= (longer / 3).clamp(1, 3)).then_some((distance, candidate))
        })
        .collect();
    near.sort_unstable();
    near.dedup();
    near.into_iter().take(3).map(|(_, candidate)| candidate).collect()
}
