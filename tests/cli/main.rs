//! Whole-program tests: what a run computes, writes and prints.

#[cfg(test)]
mod batch;
#[cfg(test)]
mod commands;
#[cfg(test)]
mod comparing;
#[cfg(test)]
mod disturbed;
#[cfg(test)]
mod sample;
#[cfg(test)]
mod storm;
#[cfg(test)]
mod tables;
#[cfg(test)]
mod workbooks;
