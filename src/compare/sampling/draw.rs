use sha2::{Digest, Sha256};

/// Draws a sample that anybody can draw again: each key gets the SHA-256 digest of `seed`, a line feed and the key
/// (all UTF-8); the keys with the smallest digests are the sample, in that order. Equal keys are one unit, and the
/// order in which keys are given does not matter. Returns the positions of the drawn keys, the first of equal ones;
/// fewer than `size` if there are no more.
///
/// The seed has to be fixed before the batch is known, by both parties, or the drawing can be tried until it suits.
pub fn draw(seed: &str, keys: &[&str], size: usize) -> Vec<usize> {
    let mut ranked: Vec<([u8; 32], &str, usize)> = keys
        .iter()
        .enumerate()
        .map(|(index, key)| {
            let digest = Sha256::new().chain_update(seed).chain_update("\n").chain_update(key).finalize();
            (digest.into(), *key, index)
        })
        .collect();
    ranked.sort_unstable();
    ranked.dedup_by(|a, b| a.1 == b.1);
    ranked.into_iter().take(size).map(|(_, _, index)| index).collect()
}
