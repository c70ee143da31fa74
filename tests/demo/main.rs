//! The invented storm from end to end.

#[cfg(test)]
mod storm;
