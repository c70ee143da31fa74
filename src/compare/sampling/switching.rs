use super::plan::Severity;

/// Lots that are looked back on before inspection is tightened.
const LOOK_BACK: usize = 5;
/// So many not accepted among them tighten inspection.
const REJECTED_TO_TIGHTEN: usize = 2;
/// So many accepted in a row make it normal again.
const ACCEPTED_TO_RELAX: usize = 5;
/// So many not accepted while tightened end sampling.
const REJECTED_TO_STOP: usize = 5;

/// How the next lot is inspected.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// By sample, so severely.
    Sampled(Severity),
    /// Not by sample: sampling is given up until the counting has been mended.
    Stopped,
}

/// Lots of one source in order, and what follows for the next one, by the switching rules of MIL-STD-105E: normal to
/// tightened when two of five or fewer lots in a row were not accepted; back when five in a row were; sampling ends
/// when five in all were not accepted while tightened. Lots that are handed in again do not count. The rules are taken
/// from secondary texts; for the end of sampling these differ, and ours is the one given for ISO 2859-1.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct History {
    standing: Standing,
    /// Whether each lot since the last change was accepted.
    since: Vec<bool>,
}

/// Nothing inspected yet.
impl Default for History {
    fn default() -> Self {
        Self { standing: Standing::Sampled(Severity::Normal), since: Vec::new() }
    }
}

impl History {
    /// How the next lot is inspected.
    pub const fn standing(&self) -> Standing {
        self.standing
    }

    /// Takes the outcome of the next lot, as inspected for the first time.
    pub fn take(&mut self, accepted: bool) {
        self.since.push(accepted);
        let rejected = |lots: &[bool]| lots.iter().filter(|accepted| !**accepted).count();
        let next = match self.standing {
            Standing::Sampled(Severity::Normal) => {
                let recent = &self.since[self.since.len().saturating_sub(LOOK_BACK)..];
                (rejected(recent) >= REJECTED_TO_TIGHTEN).then_some(Standing::Sampled(Severity::Tightened))
            }
            Standing::Sampled(Severity::Tightened) => {
                let in_a_row = self.since.iter().rev().take_while(|accepted| **accepted).count();
                if rejected(&self.since) >= REJECTED_TO_STOP {
                    Some(Standing::Stopped)
                } else {
                    (in_a_row >= ACCEPTED_TO_RELAX).then_some(Standing::Sampled(Severity::Normal))
                }
            }
            Standing::Stopped => None,
        };
        if let Some(next) = next {
            self.standing = next;
            self.since.clear();
        }
    }
}
