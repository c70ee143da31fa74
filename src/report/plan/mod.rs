//! A plan of the work as a calendar page, tables and a workbook.

mod calendar;
pub mod output;
mod page;
mod tables;
pub mod words;

pub use calendar::{Week, weeks};
pub use page::{PlanPage, fill};
pub use tables::{Rows, Sheet, sheets};

use super::wording::said;
use crate::assess::Assessment;
use crate::claim::{Claim, Intake, Located, Method, Skill};
use crate::plan::{Part, PartOf, Plan, PlannedCar};
use crate::problem::Problem;
use crate::quantity::{Hours, Money};
use crate::report::tables::Run;
use std::collections::BTreeMap;

/// A plan, and what it speaks of.
#[derive(Debug, Clone, Copy)]
pub struct PlanOf<'a> {
    /// The plan.
    pub plan: &'a Plan,
    /// The claims of the batch.
    pub intakes: &'a [Intake],
    /// Their assessments.
    pub assessed: &'a [Result<Assessment, Vec<Problem>>],
    /// What was read.
    pub run: Run<'a>,
}

/// One kind of part of one model, at one price of one source.
#[derive(Debug, Clone, PartialEq)]
pub struct PartNeed {
    /// Maker, model and year, as written.
    pub model: String,
    /// The panel, or the item in the words of its row.
    pub what: String,
    /// How many.
    pub count: u64,
    /// Price of each.
    pub price: Money,
    /// Where the price comes from.
    pub source: String,
    /// The claims that need it.
    pub claims: Vec<String>,
    /// When it arrives, claim by claim, where that is written.
    pub arrives: Vec<String>,
}

impl<'a> PlanOf<'a> {
    /// The claim of a car.
    pub fn claim(&self, intake: usize) -> &'a Claim {
        &self.intakes[intake].claim
    }

    /// Maker, model and year as written.
    pub fn model(&self, intake: usize) -> String {
        let vehicle = &self.claim(intake).vehicle;
        let text = |text: &Option<Located<String>>| text.as_ref().map(|text| said(&text.value));
        let year = vehicle.year.map(|year| year.value.to_string());
        [text(&vehicle.make), text(&vehicle.model), year].into_iter().flatten().collect::<Vec<_>>().join(" ")
    }

    /// The same with the registration.
    pub fn vehicle(&self, intake: usize) -> String {
        let plate = self.claim(intake).vehicle.registration.as_ref().map(|plate| said(&plate.value));
        let model = Some(self.model(intake)).filter(|model| !model.is_empty());
        model.into_iter().chain(plate).collect::<Vec<_>>().join(", ")
    }

    /// Hours of a car by skill.
    pub fn hours_of(&self, car: &PlannedCar) -> BTreeMap<Skill, Hours> {
        let mut hours = BTreeMap::new();
        for step in &car.steps {
            add(hours.entry(step.step.skill()).or_insert(Hours::ZERO), step.hours);
        }
        hours
    }

    /// Hours by method and skill; no method is work on the whole car and its items.
    pub fn hours_by_method(&self) -> BTreeMap<(Option<Method>, Skill), Hours> {
        let mut hours = BTreeMap::new();
        for work in self.plan.cars.iter().flat_map(|car| &car.work) {
            add(hours.entry((work.method, work.step.skill())).or_insert(Hours::ZERO), work.hours);
        }
        hours
    }

    /// Every hour of the plan.
    pub fn hours(&self) -> Hours {
        let mut sum = Hours::ZERO;
        for step in self.plan.cars.iter().flat_map(|car| &car.steps) {
            add(&mut sum, step.hours);
        }
        sum
    }

    /// The parts that the planned cars need, by model and panel.
    pub fn part_needs(&self) -> Vec<PartNeed> {
        let mut needs: BTreeMap<(String, String, i64, &str, String), PartNeed> = BTreeMap::new();
        for part in &self.plan.parts {
            let (model, what, source) = (self.model(part.intake), self.what(part), words::source(part));
            let currency = part.price.currency().code();
            let key = (model.clone(), what.clone(), part.price.minor(), currency, source.clone());
            let need = needs.entry(key).or_insert_with(|| PartNeed {
                model,
                what,
                count: 0,
                price: part.price,
                source,
                claims: Vec::new(),
                arrives: Vec::new(),
            });
            let claim = &self.claim(part.intake).key.text;
            need.count += 1;
            if need.claims.last() != Some(claim) {
                need.claims.push(claim.clone());
            }
            need.arrives.extend(part.arrives.map(|day| format!("{day} ({claim})")));
        }
        needs.into_values().collect()
    }

    /// What a part is.
    pub fn what(&self, part: &Part) -> String {
        match part.of {
            PartOf::Panel(panel) => panel.to_string(),
            PartOf::Item(item) => said(&self.claim(part.intake).items[item].name.value),
            PartOf::Operation(operation) => {
                let schedule = self.assessed[part.intake].as_ref().ok().map(|assessment| assessment.schedule);
                let schedule = schedule.and_then(|schedule| self.run.schedules.get(schedule));
                let operation = schedule.and_then(|schedule| schedule.operations.get(operation));
                operation
                    .map_or_else(String::new, |operation| format!("material of: {}", said(&operation.name)))
            }
        }
    }

    /// The parts of a car that hold up a step and of which no arrival is written.
    pub fn without_arrival(&self, intake: usize) -> Vec<String> {
        let own = self.plan.parts.iter().filter(|part| part.intake == intake);
        own.filter(|part| part.step.is_some() && part.arrives.is_none()).map(|part| self.what(part)).collect()
    }
}

/// Adds hours; a sum beyond all bounds stays where it is, and no plan of ten years comes near it.
fn add(sum: &mut Hours, more: Hours) {
    *sum = sum.plus(more).unwrap_or(*sum);
}
