//! Comparing assessors.

pub mod habit;
pub mod money;
pub mod pairing;
