//! A count to agree on. It is a proposal by a stated rule, never put in silently: the rule and the sources stand beside
//! it, and people decide.

mod proposal;

pub use proposal::{Proposal, ProposalRule, propose};
