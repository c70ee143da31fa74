//! What a plan prints: what it comes to, what waits, what is not planned, what one more would do.

use super::aligned::aligned;
use super::screen::{block, so_many};
use crate::plan::{OneMore, Unplanned, day_of};
use crate::problem::visible;
use crate::report::plan::{PlanOf, words};
use crate::report::wording;
use std::collections::BTreeMap;
use std::path::Path;

/// Cars that are named of each kind: all of them are in the output.
const KEEP: usize = 6;

/// A plan, ready to be shown.
pub struct PlanScreen<'a> {
    /// The plan.
    pub of: &'a PlanOf<'a>,
    /// Where the output is.
    pub out: &'a Path,
}

impl PlanScreen<'_> {
    /// The screen.
    pub fn text(&self, width: Option<usize>) -> String {
        let mut out = String::new();
        let mut block = |label: &str, lines: &[String]| block(&mut out, label, lines, width);
        block("Planned", &self.planned());
        block("Hours", &self.hours());
        block("Waits", &self.waits());
        block("Not planned", &self.not_planned());
        block("One more", &self.one_more());
        block("Written", &[format!("{}: plan.html, plan.xlsx, plan.csv, parts.csv", self.out.display())]);
        block("Note", &[words::PROMISE.to_owned()]);
        out
    }

    fn planned(&self) -> Vec<String> {
        let plan = self.of.plan;
        let cars = so_many(plan.cars.len() as u64, "car");
        let shop = so_many(plan.shop.hands.len() as u64, "technician");
        let bays = match &plan.shop.bays {
            Some(bays) => so_many(bays.len() as u64, "bay"),
            None => "bays not counted".to_owned(),
        };
        let end = plan.end().and_then(|end| plan.shop.calendar.date(day_of(end)));
        let done = end.map_or_else(String::new, |day| format!(", the last done on {}", wording::date(day)));
        vec![format!("{cars}{done}; {shop}, {bays}")]
    }

    fn hours(&self) -> Vec<String> {
        let mut by_skill = BTreeMap::new();
        for ((_, skill), hours) in self.of.hours_by_method() {
            let sum = by_skill.entry(skill).or_insert(crate::quantity::Hours::ZERO);
            *sum = sum.plus(hours).unwrap_or(*sum);
        }
        if by_skill.is_empty() {
            return Vec::new();
        }
        let parts: Vec<String> =
            by_skill.into_iter().map(|(skill, hours)| format!("{skill} {}", words::hours(hours))).collect();
        vec![format!("{}: {}", words::hours(self.of.hours()), parts.join(", "))]
    }

    fn waits(&self) -> Vec<String> {
        let plan = self.of.plan;
        let mut lines = Vec::new();
        for car in &plan.cars {
            for (step, _) in car.parts_awaited().filter(|(_, stands)| *stands) {
                let day = plan.shop.calendar.date(step.parts_on).map(wording::date).unwrap_or_default();
                let key = &self.of.claim(car.intake).key.text;
                lines.push(visible(&format!("{key}: {} waits for parts until {day}", step.step)));
            }
        }
        let open = plan.cars.iter().filter(|car| !self.of.without_arrival(car.intake).is_empty()).count();
        let all = lines.len();
        lines.truncate(KEEP);
        if all > KEEP {
            lines.push(format!("and {} more steps", all - KEEP));
        }
        if open > 0 {
            lines.push(format!(
                "{} with parts of which no arrival is written: reckoned as at hand",
                so_many(open as u64, "car")
            ));
        }
        lines
    }

    fn not_planned(&self) -> Vec<String> {
        let mut by_reason: BTreeMap<Unplanned, Vec<&str>> = BTreeMap::new();
        for (intake, why) in &self.of.plan.unplanned {
            by_reason.entry(*why).or_default().push(&self.of.claim(*intake).key.text);
        }
        let line = |(why, claims): (Unplanned, Vec<&str>)| {
            let named = claims.iter().take(KEEP).copied().collect::<Vec<_>>().join(", ");
            let more = if claims.len() > KEEP {
                format!(" and {} more", claims.len() - KEEP)
            } else {
                String::new()
            };
            format!("{}: {}{more}", words::unplanned(why), visible(&named))
        };
        by_reason.into_iter().map(line).collect()
    }

    fn one_more(&self) -> Vec<String> {
        let row = |(more, end): &(OneMore, Option<u64>)| {
            let (date, moved) = words::moved(self.of.plan, *end);
            vec![words::one_more(*more), date.map(wording::date).unwrap_or_default(), moved]
        };
        let rows: Vec<Vec<String>> = self.of.plan.one_more.iter().map(row).collect();
        aligned(&rows, &[])
    }
}
