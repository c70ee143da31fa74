//! The rule itself: list scheduling. Steps stand in a list. Whenever somebody is free, the first step of the list that
//! they can do, that waits for nothing and for which there is a bay, is begun by them. Nobody waits for a step further up.
//!
//! R. L. Graham, Bounds for certain multiprocessing anomalies, Bell System Technical Journal 45 (1966), and Bounds on
//! multiprocessing timing anomalies, SIAM Journal on Applied Mathematics 17 (1969): where all can do everything and work
//! the same hours, such a plan takes at most 2 - 1/m times as long as the best one, and one more to help can make it longer.

use super::calendar::{Calendar, Hand, Moment, day_of, morning};
use crate::claim::Skill;
use std::cmp::Reverse;
use std::collections::{BTreeSet, BinaryHeap};

/// A step of the list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Task {
    /// What one has to be able to do.
    pub skill: Skill,
    /// How long it takes; more than nothing.
    pub seconds: u64,
    /// Steps that have to end before, by their numbers in the list.
    pub after: Vec<usize>,
    /// The day before whose morning it cannot begin.
    pub not_before: usize,
}

/// A bay, by what is done in it; empty for any work.
pub type Bay = Vec<Skill>;

/// Who works, where, on which days.
#[derive(Debug, Clone)]
pub struct Shop {
    /// The days.
    pub calendar: Calendar,
    /// The technicians.
    pub hands: Vec<Hand>,
    /// The bays; `None` for always enough.
    pub bays: Option<Vec<Bay>>,
}

impl Shop {
    /// Whether anybody can do a step.
    pub fn has_hand(&self, skill: Skill) -> bool {
        self.hands.iter().any(|hand| hand.skills.contains(&skill))
    }

    /// Whether it can be done anywhere.
    pub fn has_bay(&self, skill: Skill) -> bool {
        self.bays.as_ref().is_none_or(|bays| bays.iter().any(|bay| takes(bay, skill)))
    }
}

fn takes(bay: &Bay, skill: Skill) -> bool {
    bay.is_empty() || bay.contains(&skill)
}

/// Where a step stands in the plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Placed {
    /// Who does it.
    pub hand: usize,
    /// In which bay, where bays are counted.
    pub bay: Option<usize>,
    /// When it begins.
    pub start: Moment,
    /// When it ends.
    pub end: Moment,
    /// The seconds of each of its days.
    pub days: Vec<(usize, u64)>,
}

/// What changes next.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Event {
    /// A step ends.
    End(usize),
    /// A step need not wait for its day any more.
    Day(usize),
}

struct Run<'a> {
    tasks: &'a [Task],
    shop: &'a Shop,
    placed: Vec<Option<Placed>>,
    /// How many steps each one still waits for.
    waits: Vec<usize>,
    /// Steps that wait for each one.
    next: Vec<Vec<usize>>,
    /// Steps that could begin, by skill, in the order of the list.
    ready: [BTreeSet<usize>; Skill::ALL.len()],
    events: BinaryHeap<Reverse<(Moment, Event)>>,
    hand_is_free: Vec<bool>,
    bay_is_free: Vec<bool>,
}

/// Plans the steps of a list; `None` for one that does not end within the calendar, and for all that wait for it.
pub fn planned(tasks: &[Task], shop: &Shop) -> Vec<Option<Placed>> {
    let mut next = vec![Vec::new(); tasks.len()];
    for (number, task) in tasks.iter().enumerate() {
        for before in &task.after {
            if let Some(next) = next.get_mut(*before) {
                next.push(number);
            }
        }
    }
    let mut run = Run {
        tasks,
        shop,
        placed: vec![None; tasks.len()],
        waits: tasks.iter().map(|task| task.after.len()).collect(),
        next,
        ready: std::array::from_fn(|_| BTreeSet::new()),
        events: BinaryHeap::new(),
        hand_is_free: vec![true; shop.hands.len()],
        bay_is_free: vec![true; shop.bays.as_ref().map_or(0, Vec::len)],
    };
    for number in (0..tasks.len()).filter(|number| tasks[*number].after.is_empty()) {
        run.release(number, 0);
    }
    run.all();
    run.placed
}

impl Run<'_> {
    fn all(&mut self) {
        let mut now = 0;
        while day_of(now) < self.shop.calendar.number_of_days() {
            while self.events.peek().is_some_and(|Reverse((at, _))| *at <= now) {
                match self.events.pop() {
                    Some(Reverse((_, Event::End(number)))) => self.end(number, now),
                    Some(Reverse((_, Event::Day(number)))) => self.make_ready(number),
                    None => {}
                }
            }
            while self.begin_first(now) {}
            let is_waiting = self.ready.iter().any(|ready| !ready.is_empty());
            let tomorrow = is_waiting.then(|| morning(day_of(now) + 1));
            let event = self.events.peek().map(|Reverse((at, _))| *at);
            now = match event.into_iter().chain(tomorrow).min() {
                Some(next) => next,
                None => return,
            };
        }
    }

    /// A step waits for no other any more.
    fn release(&mut self, number: usize, now: Moment) {
        let from = morning(self.tasks[number].not_before);
        if from > now {
            self.events.push(Reverse((from, Event::Day(number))));
        } else {
            self.make_ready(number);
        }
    }

    fn make_ready(&mut self, number: usize) {
        self.ready[self.tasks[number].skill as usize].insert(number);
    }

    fn end(&mut self, number: usize, now: Moment) {
        if let Some(placed) = &self.placed[number] {
            self.hand_is_free[placed.hand] = true;
            if let Some(bay) = placed.bay {
                self.bay_is_free[bay] = true;
            }
        }
        for after in std::mem::take(&mut self.next[number]) {
            self.waits[after] -= 1;
            if self.waits[after] == 0 {
                self.release(after, now);
            }
        }
    }

    /// Begins the first step of the list that somebody free can do; whether there was one.
    fn begin_first(&mut self, now: Moment) -> bool {
        let mut first: Option<(usize, usize, Option<usize>)> = None;
        for skill in Skill::ALL {
            let Some(number) = self.ready[*skill as usize].first().copied() else { continue };
            if first.is_some_and(|(other, ..)| other < number) {
                continue;
            }
            let bay = self.free_bay(*skill);
            if let Some(hand) =
                self.free_hand(number, now).filter(|_| bay.is_some() || self.shop.bays.is_none())
            {
                first = Some((number, hand, bay));
            }
        }
        let Some((number, hand, bay)) = first else { return false };
        let task = &self.tasks[number];
        self.ready[task.skill as usize].remove(&number);
        // What does not end within the calendar is not begun; whoever could have done it stays free.
        let ends = self.shop.hands[hand].ends(&self.shop.calendar, now, task.seconds);
        if let Some((end, days)) = ends {
            self.hand_is_free[hand] = false;
            if let Some(bay) = bay {
                self.bay_is_free[bay] = false;
            }
            self.events.push(Reverse((end, Event::End(number))));
            self.placed[number] = Some(Placed { hand, bay, start: now, end, days });
        }
        true
    }

    /// Of those who are free, whoever would be done first; alike, whoever can do least else; then the first of the table.
    fn free_hand(&self, number: usize, now: Moment) -> Option<usize> {
        let (calendar, task) = (&self.shop.calendar, &self.tasks[number]);
        let free = self.shop.hands.iter().enumerate().filter(|(number, hand)| {
            self.hand_is_free[*number] && hand.skills.contains(&task.skill) && hand.is_there(calendar, now)
        });
        let end = |hand: &Hand| hand.ends(calendar, now, task.seconds).map_or(Moment::MAX, |(end, _)| end);
        free.min_by_key(|(number, hand)| (end(hand), hand.skills.len(), *number)).map(|(number, _)| number)
    }

    /// Of the bays that are free, the one for least else; none where bays are not counted.
    fn free_bay(&self, skill: Skill) -> Option<usize> {
        let bays = self.shop.bays.iter().flatten().enumerate();
        let free = bays.filter(|(number, bay)| self.bay_is_free[*number] && takes(bay, skill));
        let uses = |bay: &Bay| if bay.is_empty() { Skill::ALL.len() } else { bay.len() };
        free.min_by_key(|(number, bay)| (uses(bay), *number)).map(|(number, _)| number)
    }
}
