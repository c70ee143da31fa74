//! Comparing assessors.

pub mod agree;
pub mod habit;
pub mod money;
pub mod pairing;
