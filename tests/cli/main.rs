//! Whole-program tests: what a run computes, writes and prints.

#[cfg(test)]
mod batch;
#[cfg(test)]
mod bordereau;
#[cfg(test)]
mod carried;
#[cfg(test)]
mod commands;
#[cfg(test)]
mod comparing;
#[cfg(test)]
mod disturbed;
#[cfg(test)]
mod editions;
#[cfg(test)]
mod form;
#[cfg(test)]
mod lots;
#[cfg(test)]
mod photographs;
#[cfg(test)]
mod recount;
#[cfg(test)]
mod redact;
#[cfg(test)]
mod register;
#[cfg(test)]
mod sample;
#[cfg(test)]
mod sending;
#[cfg(test)]
mod shape;
#[cfg(test)]
mod storm;
#[cfg(test)]
mod supplements;
#[cfg(test)]
mod tables;
#[cfg(test)]
mod understanding;
#[cfg(test)]
mod what_if;
#[cfg(test)]
mod workbooks;
