use super::panels::is_same_group;
use crate::claim::PanelKind;
use crate::claim::words::find;
use crate::claim::words::{Named, folded};
use crate::problem::{Located, Problem, catalogue::schedule as words, nearest};
use crate::schedule::{GroupId, Joint, PanelTerms, Plane, Scope};

/// What a cell under `panel` may name: kinds of panel, the groups of this schedule, planes and joints.
#[derive(Debug, Clone, Copy)]
pub(super) struct Scopes<'s> {
    pub panels: &'s [PanelTerms],
    groups: &'s [String],
}

impl<'s> Scopes<'s> {
    pub fn new(panels: &'s [PanelTerms], groups: &'s [String]) -> Self {
        Self { panels, groups }
    }

    /// How many groups there are.
    pub fn groups(&self) -> usize {
        self.groups.len()
    }

    /// The group of a name.
    pub fn group(&self, name: &str) -> Option<GroupId> {
        let index = self.groups.iter().position(|group| is_same_group(group, name))?;
        u16::try_from(index).ok().map(GroupId)
    }

    /// The names of all groups.
    pub fn group_names(&self) -> Vec<&'s str> {
        self.groups.iter().map(String::as_str).collect()
    }

    /// Which panels a cell means; blank is any. Told are unknown names, names that could mean a kind or a group, and names
    /// of panels that the schedule does not list.
    pub fn resolve(&self, written: Option<&Located<String>>, problems: &mut Vec<Problem>) -> Option<Scope> {
        let Some(written) = written else { return Some(Scope::Any) };
        let text = written.value.as_str();
        let group = self.group(text);
        let scope = if let Some(kind) = find::<PanelKind>(text) {
            self.tell_if_both(kind, group, written, problems);
            Scope::Kind(kind)
        } else if let Some(group) = group {
            Scope::Group(group)
        } else if let Some(plane) = find::<Plane>(text) {
            Scope::Plane(plane)
        } else if let Some(joint) = find::<Joint>(text) {
            Scope::Joint(joint)
        } else if folded(text) == "any" {
            Scope::Any
        } else {
            let near = self.near(text);
            problems
                .push(words::unknown_panels(text, &near).at(written.place).written(written.value.clone()));
            return None;
        };
        if !self.panels.is_empty() && !self.panels.iter().any(|panel| scope.holds_for(panel)) {
            problems.push(words::holds_for_no_panel(text).at(written.place).written(written.value.clone()));
        }
        Some(scope)
    }

    fn tell_if_both(
        &self,
        kind: PanelKind,
        group: Option<GroupId>,
        written: &Located<String>,
        problems: &mut Vec<Problem>,
    ) {
        let is_wider =
            |group: GroupId| self.panels.iter().any(|panel| panel.group == group && panel.kind != kind);
        if group.is_some_and(is_wider) {
            let problem = words::kind_and_group(kind.name()).at(written.place);
            problems.push(problem.written(written.value.clone()));
        }
    }

    fn near(&self, text: &str) -> Vec<&str> {
        let kinds = PanelKind::ALL.iter().map(|kind| Named::name(*kind));
        let planes = Plane::ALL.iter().map(|plane| Named::name(*plane));
        let joints = Joint::ALL.iter().map(|joint| Named::name(*joint));
        nearest(text, kinds.chain(self.group_names()).chain(planes).chain(joints))
    }
}
