/// How a count is proposed from several.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ProposalRule {
    /// The middle count of each band; between two middle ones their mean, a half counted up.
    Median,
    /// The median where all counts of a band lie within so many dents of each other; otherwise none, to be counted
    /// again.
    WithinTolerance(u32),
}

/// A proposed count of one band.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Proposal {
    /// So many dents.
    Dents(u32),
    /// No proposal: the counts lie so many dents apart.
    CountAgain(u32),
}

/// Proposes a count for each band from the counts of every look, which all have the same bands. Looks that did not
/// inspect the panel are left out by the caller: not inspected is no zero.
pub fn propose(looks: &[&[u32]], rule: ProposalRule) -> Vec<Proposal> {
    let bands = looks.iter().map(|look| look.len()).max().unwrap_or(0);
    (0..bands)
        .map(|band| {
            let mut counts: Vec<u32> = looks.iter().filter_map(|look| look.get(band)).copied().collect();
            counts.sort_unstable();
            let spread = counts.last().zip(counts.first()).map_or(0, |(most, least)| most - least);
            match rule {
                ProposalRule::WithinTolerance(tolerance) if spread > tolerance => {
                    Proposal::CountAgain(spread)
                }
                ProposalRule::Median | ProposalRule::WithinTolerance(_) => Proposal::Dents(median(&counts)),
            }
        })
        .collect()
}

fn median(sorted: &[u32]) -> u32 {
    let middle = sorted.len() / 2;
    match (sorted.get(middle), sorted.len() % 2) {
        (Some(count), 1) => *count,
        (Some(upper), _) => {
            let lower = sorted[middle - 1];
            lower + (upper - lower).div_ceil(2)
        }
        (None, _) => 0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_median_of_two_is_their_mean_with_a_half_counted_up() {
        assert_eq!(
            propose(&[&[3, 10], &[6, 10]], ProposalRule::Median),
            [Proposal::Dents(5), Proposal::Dents(10)]
        );
    }

    #[test]
    fn the_median_of_three_ignores_the_odd_one_out() {
        assert_eq!(propose(&[&[3], &[90], &[4]], ProposalRule::Median), [Proposal::Dents(4)]);
    }

    #[test]
    fn counts_too_far_apart_are_to_be_counted_again() {
        let proposed = propose(&[&[30, 2], &[34, 9]], ProposalRule::WithinTolerance(4));
        assert_eq!(proposed, [Proposal::Dents(32), Proposal::CountAgain(7)]);
    }
}
