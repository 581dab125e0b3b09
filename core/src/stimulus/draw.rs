//! Draws from a seed: the same seed gives the same schedule again, so that a run can be shown and scored afterwards.

/// The `index`-th number of a seeded sequence, from 0 up to, without, 1 (splitmix64, Steele et al. 2014).
pub(super) fn unit(seed: u64, index: u32) -> f64 {
    // 53 bits are what a double holds.
    (bits(seed, index) >> 11) as f64 / (1_u64 << 53) as f64
}

/// The `index`-th number of a seeded sequence between two whole numbers of milliseconds, ends included.
pub(super) fn milliseconds(seed: u64, index: u32, from: u32, to: u32) -> u32 {
    from + (unit(seed, index) * f64::from(to - from + 1)).floor() as u32
}

/// As many true as false, one more of the first when `count` is odd, in an order drawn from the seed.
pub(super) fn balanced(seed: u64, count: u32) -> Vec<bool> {
    let mut sides: Vec<bool> = (0..count).map(|at| at % 2 == 0).collect();
    // Fisher and Yates, from the end.
    for at in (1..sides.len()).rev() {
        let other = (unit(seed, at as u32) * (at + 1) as f64).floor() as usize;
        sides.swap(at, other.min(at));
    }
    sides
}

fn bits(seed: u64, index: u32) -> u64 {
    let mut z = seed.wrapping_add(0x9E37_79B9_7F4A_7C15_u64.wrapping_mul(u64::from(index) + 1));
    z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    z ^ (z >> 31)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The first outputs of splitmix64 for the seed 1234567, as published with its reference code (S. Vigna, from memory;
    /// they are also the test values of several libraries).
    #[test]
    fn the_sequence_is_the_published_one() {
        let first: Vec<u64> = (0..3).map(|index| bits(1_234_567, index)).collect();
        assert_eq!(first, [6_457_827_717_110_365_317, 3_203_168_211_198_807_973, 9_817_491_932_198_370_423]);
    }

    #[test]
    fn draws_reach_both_ends_and_no_further() {
        let drawn: Vec<u32> = (0..2000).map(|index| milliseconds(7, index, 3, 6)).collect();
        assert_eq!((drawn.iter().min(), drawn.iter().max()), (Some(&3), Some(&6)));
    }

    #[test]
    fn sides_are_balanced_and_their_order_differs_by_seed() {
        for seed in 0..50 {
            assert_eq!(balanced(seed, 20).iter().filter(|side| **side).count(), 10);
            assert_eq!(balanced(seed, 7).iter().filter(|side| **side).count(), 4);
        }
        assert_eq!(balanced(5, 20), balanced(5, 20));
        assert_ne!(balanced(5, 20), balanced(6, 20));
    }
}
