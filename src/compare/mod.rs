#![doc = include_str!("README.md")]

pub mod sampling;
pub mod statistics;
