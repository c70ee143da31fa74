//! Comparing assessors.

pub mod money;
pub mod pairing;
