//! A run at a glance: totals, what needs a person, and the problems to show, folded claim by claim.

use super::tables::{Run, claims};
use super::{Subject, wording};
use crate::assess::{OpenReason, PanelAssessment, Screen};
use crate::batch::{Carried, Done, EarlierCars, Repeats, Sink, Totals};
use crate::problem::{Problem, Severity};
use std::collections::BTreeMap;
use std::convert::Infallible;

/// Something that a person has to decide.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Need {
    /// The claim.
    pub claim: String,
    /// The panel or item, or the vehicle as a whole.
    pub what: String,
    /// Why.
    pub why: String,
}

/// How much an overview keeps to be shown; everything is counted.
#[derive(Debug, Clone, Copy)]
pub struct Keep {
    /// The first so many problems of a kind.
    pub problems_of_a_kind: usize,
    /// The first so many things that need a person.
    pub needs: usize,
}

impl Keep {
    /// Everything.
    pub const ALL: Self = Self { problems_of_a_kind: usize::MAX, needs: usize::MAX };
}

/// One claim at a glance.
#[derive(Debug)]
pub struct Glance {
    /// Its totals.
    pub totals: Totals,
    /// What a person has to decide on it.
    pub needs: Vec<Need>,
    problems: Vec<Problem>,
    carried: Carried,
}

/// A run at a glance. As a sink it is a run that writes nothing.
#[derive(Debug)]
pub struct Overview<'a> {
    run: Run<'a>,
    /// What the run comes to.
    pub totals: Totals,
    /// The first things that need a person, in input order.
    pub needs: Vec<Need>,
    /// How many there are in all.
    pub all_needs: u64,
    /// Claims whose documents were taken over from an earlier output.
    pub taken_over: u64,
    problems: BTreeMap<Severity, Vec<Problem>>,
    kept: BTreeMap<&'static str, usize>,
    keep: Keep,
    repeats: Repeats,
}

impl<'a> Overview<'a> {
    /// An overview of nothing yet.
    pub fn new(run: Run<'a>, keep: Keep) -> Self {
        Self {
            run,
            totals: Totals::default(),
            needs: Vec::new(),
            all_needs: 0,
            taken_over: 0,
            problems: BTreeMap::new(),
            kept: BTreeMap::new(),
            keep,
            repeats: Repeats::default(),
        }
    }

    /// Takes a problem that belongs to no claim of the run.
    pub fn report(&mut self, problem: &Problem) {
        self.totals.count(problem);
        self.keep_problem(problem.clone());
    }

    /// The problems kept, the worst first, each severity in input order.
    pub fn problems(&self) -> impl Iterator<Item = &Problem> {
        self.problems.values().rev().flatten()
    }

    /// How many problems of all severities there are, kept or not.
    pub fn all_problems(&self) -> u64 {
        self.totals.severities.values().sum()
    }

    /// One claim, looked at.
    pub fn glance(&self, done: &Done<'_>) -> Glance {
        let key = &done.intake.claim.key.text;
        let named = |problem: &Problem| {
            let mut problem = problem.clone();
            problem.claim.get_or_insert_with(|| key.clone());
            problem
        };
        let lacks = self.run.unready(done);
        let mut totals = Totals::of(done);
        for problem in &lacks {
            totals.count(problem);
        }
        Glance {
            totals,
            needs: self.run.subject(done).map_or_else(Vec::new, |subject| needs(&subject)),
            problems: done.problems().map(named).chain(lacks).collect(),
            carried: Carried::of(&done.intake.claim),
        }
    }

    /// Takes a claim.
    pub fn add(&mut self, glance: Glance) {
        self.totals.add(&glance.totals);
        self.repeats.add(&glance.carried);
        self.all_needs += glance.needs.len() as u64;
        let room = self.keep.needs.saturating_sub(self.needs.len());
        self.needs.extend(glance.needs.into_iter().take(room));
        for problem in glance.problems {
            self.keep_problem(problem);
        }
    }

    /// What stands in two of the claims that were taken, or in one of them and an earlier run, to be reported when they all were.
    pub fn repeats(&mut self, earlier: &EarlierCars) -> Vec<Problem> {
        std::mem::take(&mut self.repeats).problems(earlier)
    }

    fn keep_problem(&mut self, problem: Problem) {
        let kept = self.kept.entry(problem.code.id).or_default();
        if *kept < self.keep.problems_of_a_kind {
            *kept += 1;
            self.problems.entry(problem.severity()).or_default().push(problem);
        }
    }
}

impl Sink for Overview<'_> {
    type Piece = Glance;
    type Error = Infallible;

    fn draw(&self, done: &Done<'_>) -> Glance {
        self.glance(done)
    }

    fn accept(&mut self, glance: Glance) -> Result<(), Infallible> {
        self.add(glance);
        Ok(())
    }
}

/// What enters no total, in words: `3 open panels and 1 open item`; nothing when everything is priced.
pub fn open_words(totals: &Totals) -> Option<String> {
    let so_many = |count: u64, one: &str| match count {
        0 => None,
        1 => Some(format!("1 open {one}")),
        more => Some(format!("{more} open {one}s")),
    };
    match (so_many(totals.open_panels, "panel"), so_many(totals.open_items, "item")) {
        (Some(panels), Some(items)) => Some(format!("{panels} and {items}")),
        (panels, items) => panels.or(items),
    }
}

/// What a person has to decide on a claim: its open panels and items, and a total loss that the screen finds probable.
fn needs(subject: &Subject<'_>) -> Vec<Need> {
    let assessment = subject.assessment;
    let need = |what: String, why: String| Need { claim: subject.claim.key.text.clone(), what, why };
    let mut needs = Vec::new();
    if let (Screen::Reached(_), Some(figures)) = (&assessment.screen, claims::figures(&assessment.screen)) {
        let why = format!(
            "probable total loss: {} {} against {}",
            assessment.currency, figures.cost, figures.limit
        );
        needs.push(need("vehicle".to_owned(), why));
    }
    needs.extend(wording::settled_unscreened(assessment).map(|why| need("total loss".to_owned(), why)));
    for panel in assessment.open_panels() {
        needs.push(need(panel.panel.to_string(), why_open(panel, subject)));
    }
    for open in &assessment.open_items {
        let name = subject.claim.items.get(open.item).map_or("item", |item| item.name.value.as_str());
        needs.push(need(name.to_owned(), wording::item_unpriced(open.why).to_owned()));
    }
    needs
}

/// Why a panel is open; for one that is referred, the limit that referred it.
fn why_open(panel: &PanelAssessment, subject: &Subject<'_>) -> String {
    let Some(reason) = panel.open else { return String::new() };
    let deciding = panel.decided_by.and_then(|index| panel.findings.get(index));
    match (reason, deciding) {
        (OpenReason::Referred, Some(finding)) => {
            let limit = &subject.schedule.limits[finding.limit];
            format!("{}: {} ({})", limit.name, wording::measured(finding), wording::limit(limit, subject))
        }
        _ => wording::open(reason, subject),
    }
}
