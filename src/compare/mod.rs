#![doc = include_str!("README.md")]

pub mod agree;
pub mod comparison;
pub mod habit;
pub mod money;
pub mod pairing;
pub mod sampling;
pub mod statistics;
