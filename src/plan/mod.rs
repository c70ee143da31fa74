#![doc = include_str!("README.md")]

mod arrivals;
mod calendar;
mod list;
mod parts;
mod work;

use arrivals::{Arrivals, Steps};
pub use calendar::{A_DAY, Calendar, Hand, Moment, day_of, morning};
pub use list::{Bay, Placed, Shop, Task, planned};
pub use parts::{Part, PartOf, parts};
pub use work::{NoHours, Step, Work, work};

use crate::assess::{Assessment, Outcome};
use crate::claim::words::folded;
use crate::claim::{Intake, Settlement, Skill, Workshop};
use crate::problem::{Problem, catalogue::plan as say};
use crate::quantity::{Date, Hours};
use crate::schedule::Schedule;
use std::collections::{BTreeMap, BTreeSet};

/// A car with its assessment, or without one.
#[derive(Debug, Clone, Copy)]
pub struct Car<'a> {
    /// What was written.
    pub intake: &'a Intake,
    /// What came out; none where it is not priced.
    pub assessment: Option<&'a Assessment>,
}

/// Why a car is not planned.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Unplanned {
    /// It is not priced.
    NotPriced,
    /// A person has to look at something first.
    Open,
    /// A total loss, by its screen or by what the claim sheet says.
    TotalLoss,
    /// The owner takes money in place of the repair.
    Cash,
    /// There is nothing to do.
    Nothing,
    /// Nothing on it has hours.
    NoWork,
    /// Its paintless work is priced by amounts, and nothing says what an hour brings in.
    NoPace,
    /// Its hours cannot be added up.
    TooMany,
    /// Nobody can do this.
    NoTechnician(Skill),
    /// There is no bay for this.
    NoBay(Skill),
    /// It does not end within ten years.
    Beyond,
}

/// A step of a car in the plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlannedStep {
    /// Which step.
    pub step: Step,
    /// How long it takes.
    pub hours: Hours,
    /// The day before which its parts are not at hand.
    pub parts_on: usize,
    /// Who, where, when.
    pub placed: Placed,
}

/// A car that is planned.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlannedCar {
    /// Its number in the batch.
    pub intake: usize,
    /// Its work, line by line.
    pub work: Vec<Work>,
    /// Its steps in their order.
    pub steps: Vec<PlannedStep>,
}

impl PlannedCar {
    /// Steps whose parts arrive on a later day than the first, each with whether the car stands still for them.
    pub fn parts_awaited(&self) -> impl Iterator<Item = (&PlannedStep, bool)> {
        let before = [0].into_iter().chain(self.steps.iter().map(|step| step.placed.end));
        let awaited = self.steps.iter().zip(before).filter(|(step, _)| step.parts_on > 0);
        awaited.map(|(step, before)| (step, before < morning(step.parts_on)))
    }

    /// When its last step ends.
    pub fn end(&self) -> Moment {
        self.steps.last().map_or(0, |step| step.placed.end)
    }
}

/// What there could be one more of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OneMore {
    /// A technician who can do this alone.
    Technician(Skill),
    /// A bay for any work.
    Bay,
}

/// A plan. It is no promise: it holds if every hour is as reckoned and everybody works as written.
#[derive(Debug, Clone)]
pub struct Plan {
    /// Who works, where, on which days.
    pub shop: Shop,
    /// Names of the bays, as the shop counts them.
    pub bays: Vec<String>,
    /// The cars in the order of the list.
    pub cars: Vec<PlannedCar>,
    /// The cars that are not planned, in input order.
    pub unplanned: Vec<(usize, Unplanned)>,
    /// Parts of the planned cars, in input order.
    pub parts: Vec<Part>,
    /// When the last car ends with one more.
    pub one_more: Vec<(OneMore, Option<Moment>)>,
    /// Rows of arrivals that hold nothing up.
    pub problems: Vec<Problem>,
}

impl Plan {
    /// When the last car is done.
    pub fn end(&self) -> Option<Moment> {
        self.cars.iter().map(PlannedCar::end).max()
    }
}

/// A car while the list is made.
struct Draft {
    intake: usize,
    lot: Option<String>,
    work: Vec<Work>,
    /// Its steps: hours, and the day before which parts are not at hand.
    steps: Steps,
    alone: Moment,
}

/// Plans the work of a batch from a day on. Pure: the same batch and workshop give the same plan.
pub fn plan(
    cars: &[Car<'_>],
    schedules: &[Schedule],
    workshop: &Workshop,
    first: Date,
) -> Result<Plan, Problem> {
    if workshop.technicians.is_empty() {
        return Err(say::no_technicians());
    }
    let calendar = Calendar::new(first, workshop);
    if !calendar.ever_opens() {
        return Err(say::no_working_day());
    }
    let (names, bays) = bays(workshop);
    let hands = Hand::all(workshop, &calendar);
    let shop = Shop { calendar, hands, bays };
    let mut unplanned = Vec::new();
    let mut drafts = Vec::new();
    let mut all_parts = Vec::new();
    let mut arrivals = Arrivals::new(&workshop.arrivals);
    for (number, car) in cars.iter().enumerate() {
        match draft(number, car, schedules, workshop, &shop) {
            Ok((mut draft, mut parts)) => {
                arrivals.hold_up(&car.intake.claim, &mut draft.steps, &mut parts, &shop.calendar);
                match alone(&draft, &shop) {
                    Some(alone) => {
                        draft.alone = alone;
                        drafts.push(draft);
                        all_parts.extend(parts);
                    }
                    None => unplanned.push((number, Unplanned::Beyond)),
                }
            }
            Err(why) => unplanned.push((number, why)),
        }
    }
    let drafts = listed(drafts);
    let tasks = tasks(&drafts);
    let placed = planned(&tasks, &shop);
    let one_more = one_more(&tasks, &shop);
    let cars = together(drafts, placed, &mut unplanned);
    unplanned.sort_unstable();
    let is_planned: BTreeSet<usize> = cars.iter().map(|car| car.intake).collect();
    all_parts.retain(|part: &Part| is_planned.contains(&part.intake));
    let problems = arrivals.idle();
    Ok(Plan { shop, bays: names, cars, unplanned, parts: all_parts, one_more, problems })
}

/// Each bay with its name; several of one row are numbered.
fn bays(workshop: &Workshop) -> (Vec<String>, Option<Vec<Bay>>) {
    let (mut names, mut bays) = (Vec::new(), Vec::new());
    for row in &workshop.bays {
        for number in 1..=row.number {
            let name = &row.name.value;
            names.push(if row.number == 1 { name.clone() } else { format!("{name} {number}") });
            bays.push(row.used_for.clone());
        }
    }
    let is_counted = !bays.is_empty();
    (names, is_counted.then_some(bays))
}

fn draft(
    number: usize,
    car: &Car<'_>,
    schedules: &[Schedule],
    workshop: &Workshop,
    shop: &Shop,
) -> Result<(Draft, Vec<Part>), Unplanned> {
    let assessment = car.assessment.ok_or(Unplanned::NotPriced)?;
    let schedule = schedules.get(assessment.schedule).ok_or(Unplanned::NotPriced)?;
    let claim = &car.intake.claim;
    match claim.parties.settlement.map(|settlement| settlement.value) {
        Some(Settlement::Cash) => return Err(Unplanned::Cash),
        Some(Settlement::TotalLoss | Settlement::TotalLossKept) => return Err(Unplanned::TotalLoss),
        Some(Settlement::Repair) | None => {}
    }
    match assessment.outcome {
        Outcome::Repair => {}
        // A claim sheet that settles by repair overrules the screen.
        Outcome::ProbableTotalLoss if claim.parties.settlement.is_some() => {}
        Outcome::ProbableTotalLoss => return Err(Unplanned::TotalLoss),
        Outcome::NeedsAPerson => return Err(Unplanned::Open),
        Outcome::NothingFound => return Err(Unplanned::Nothing),
    }
    if assessment.open_panels().next().is_some() || !assessment.open_items.is_empty() {
        return Err(Unplanned::Open);
    }
    let work = work(claim, assessment, schedule, &workshop.paces).map_err(|why| match why {
        NoHours::Paintless => Unplanned::NoPace,
        NoHours::TooMany => Unplanned::TooMany,
    })?;
    let mut steps = Steps::new();
    for work in &work {
        let step = steps.entry(work.step).or_insert((Hours::ZERO, 0));
        step.0 = step.0.plus(work.hours).map_err(|_| Unplanned::TooMany)?;
    }
    if steps.is_empty() {
        return Err(Unplanned::NoWork);
    }
    let skills = || steps.keys().map(|step| step.skill());
    if let Some(skill) = skills().find(|skill| !shop.has_hand(*skill)) {
        return Err(Unplanned::NoTechnician(skill));
    }
    if let Some(skill) = skills().find(|skill| !shop.has_bay(*skill)) {
        return Err(Unplanned::NoBay(skill));
    }
    let lot = claim.parties.lot.as_ref().map(|lot| folded(&lot.value));
    let parts = parts(number, claim, assessment);
    Ok((Draft { intake: number, lot, work, steps, alone: 0 }, parts))
}

/// When the car would be done if it had the workshop to itself.
fn alone(draft: &Draft, shop: &Shop) -> Option<Moment> {
    let placed = planned(&tasks(std::slice::from_ref(draft)), shop);
    placed.last()?.as_ref().map(|placed| placed.end)
}

/// The cars in the order of the list: first the one that would be done first by itself; alike, in input order. Cars of a
/// lot follow the first of them.
fn listed(mut drafts: Vec<Draft>) -> Vec<Draft> {
    drafts.sort_by_key(|draft| (draft.alone, draft.intake));
    let mut first: BTreeMap<String, usize> = BTreeMap::new();
    let mut places = Vec::with_capacity(drafts.len());
    for (place, draft) in drafts.iter().enumerate() {
        places.push(match &draft.lot {
            Some(lot) => *first.entry(lot.clone()).or_insert(place),
            None => place,
        });
    }
    let mut listed: Vec<(usize, Draft)> = places.into_iter().zip(drafts).collect();
    listed.sort_by_key(|(place, _)| *place);
    listed.into_iter().map(|(_, draft)| draft).collect()
}

/// The steps of a list of cars, each after the one before it.
fn tasks(drafts: &[Draft]) -> Vec<Task> {
    let mut tasks: Vec<Task> = Vec::new();
    for draft in drafts {
        for (index, (step, (hours, parts_on))) in draft.steps.iter().enumerate() {
            tasks.push(Task {
                skill: step.skill(),
                seconds: u64::try_from(hours.seconds()).unwrap_or(0),
                after: if index == 0 { Vec::new() } else { vec![tasks.len() - 1] },
                not_before: *parts_on,
            });
        }
    }
    tasks
}

/// When all is done with one more technician of each skill that somebody has, and with one more bay.
fn one_more(tasks: &[Task], shop: &Shop) -> Vec<(OneMore, Option<Moment>)> {
    let end = |shop: &Shop| {
        let placed = planned(tasks, shop);
        placed
            .iter()
            .map(|placed| placed.as_ref().map(|placed| placed.end))
            .collect::<Option<Vec<_>>>()?
            .into_iter()
            .max()
    };
    let mut all = Vec::new();
    for skill in Skill::ALL.iter().filter(|skill| tasks.iter().any(|task| task.skill == **skill)) {
        let Some(like) = shop.hands.iter().find(|hand| hand.skills.contains(skill)) else { continue };
        let mut more = shop.clone();
        let skills = vec![*skill];
        more.hands.push(Hand { name: String::new(), skills, seconds: like.seconds, off: BTreeSet::new() });
        all.push((OneMore::Technician(*skill), end(&more)));
    }
    if let Some(bays) = &shop.bays {
        let mut more = bays.clone();
        more.push(Vec::new());
        all.push((OneMore::Bay, end(&Shop { bays: Some(more), ..shop.clone() })));
    }
    all
}

/// The cars with the places of their steps; one that does not end is not planned.
fn together(
    drafts: Vec<Draft>,
    placed: Vec<Option<Placed>>,
    unplanned: &mut Vec<(usize, Unplanned)>,
) -> Vec<PlannedCar> {
    let mut placed = placed.into_iter();
    let mut cars = Vec::with_capacity(drafts.len());
    for Draft { intake, work, steps, .. } in drafts {
        let own: Vec<Option<Placed>> = placed.by_ref().take(steps.len()).collect();
        let step = |((step, (hours, parts_on)), placed): ((Step, (Hours, usize)), Option<Placed>)| {
            Some(PlannedStep { step, hours, parts_on, placed: placed? })
        };
        match steps.into_iter().zip(own).map(step).collect::<Option<Vec<_>>>() {
            Some(steps) => cars.push(PlannedCar { intake, work, steps }),
            None => unplanned.push((intake, Unplanned::Beyond)),
        }
    }
    cars
}
