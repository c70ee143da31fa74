/// A small generator of random numbers that anybody can write again: `SplitMix64` (Steele, Lea and Flood 2014, "Fast
/// Splittable Pseudorandom Number Generators"). The same seed gives the same numbers on every machine.
#[derive(Debug, Clone)]
pub struct Random(u64);

impl Random {
    /// A sequence by its seed.
    pub const fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// The next 64 bits.
    pub fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// A whole number from 0 up to but not including `below`, all alike: the upper half of the product of the next
    /// bits and `below`, unless the lower half is less than 2^64 modulo `below`, which is drawn again (Lemire 2019).
    pub fn below(&mut self, below: u64) -> u64 {
        loop {
            let product = u128::from(self.bits()) * u128::from(below);
            let lower = u64::try_from(product & u128::from(u64::MAX)).unwrap_or(u64::MAX);
            if below == 0 || lower >= below.wrapping_neg() % below {
                return u64::try_from(product >> 64).unwrap_or(u64::MAX);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // Source: the five values for seed 1234567 printed for the reference C code in public collections of programming
    // tasks (from memory).
    #[test]
    fn the_generator_gives_the_published_numbers() {
        let mut random = Random::new(1_234_567);
        let numbers: Vec<u64> = (0..5).map(|_| random.bits()).collect();
        let published = [
            6_457_827_717_110_365_317,
            3_203_168_211_198_807_973,
            9_817_491_932_198_370_423,
            4_593_380_528_125_082_431,
            16_408_922_859_458_223_821,
        ];
        assert_eq!(numbers, published);
    }

    #[test]
    fn numbers_below_a_bound_come_equally_often() {
        let mut random = Random::new(7);
        let mut seen = [0_u32; 6];
        for _ in 0..60_000 {
            seen[usize::try_from(random.below(6)).unwrap()] += 1;
        }
        // Five standard deviations of a binomial count to either side.
        assert!(seen.iter().all(|times| times.abs_diff(10_000) < 460), "{seen:?}");
    }
}
