//! stipple reads spreadsheets of dent counts, rates and decides each panel by an agreed schedule, and writes
//! claim-ready documents in which every amount can be followed back to the cell it came from.
//!
//! The folders are the pipeline. A batch lives in this order:
//!
//! 1. [`read`] opens files and makes located cells ([`table`]) of them, recognises tables by their headings, and gathers
//!    the rows of each job into a [`claim`]; rows of long text files are left where they are until their claim's turn;
//! 2. [`schedule`] makes a checked schedule of the same kind of tables;
//! 3. [`assess`] rates and decides one claim against one schedule: a pure function;
//! 4. [`batch`] does that for all claims on all cores, in input order;
//! 5. [`compare`] says how well several assessors agree, where, and what it does to the money;
//! 6. [`plan`] says who works on which car on which day, from the hours of the assessments;
//! 7. [`register`] says where claims stand, by dated rows of what happened to them;
//! 8. [`report`] fills documents and draws them;
//! 9. [`cli`] is the only part that prints.
//!
//! [`problem`] says what is wrong and where; [`quantity`] is exact and the only place that rounds.

pub mod assess;
pub mod batch;
pub mod claim;
pub mod cli;
pub mod compare;
pub mod distribution;
pub mod plan;
pub mod problem;
pub mod quantity;
pub mod read;
pub mod register;
pub mod report;
pub mod schedule;
pub mod table;
