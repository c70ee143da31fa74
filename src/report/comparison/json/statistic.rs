use super::{Compared, name};
use crate::compare::statistics::{Interval, Statistic};
use crate::report::comparison::statistics::Told;
use serde::Serialize;
use std::collections::BTreeMap;

#[derive(Debug, Serialize)]
pub(super) struct StatisticView<'a> {
    name: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    first: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    second: Option<&'a str>,
    over: String,
    #[serde(skip_serializing_if = "String::is_empty")]
    kind: String,
    value: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    reason: Option<String>,
    interval: Option<IntervalView>,
    #[serde(skip_serializing_if = "Option::is_none")]
    no_interval_because: Option<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    intervals_by_other_methods: Vec<IntervalView>,
    #[serde(skip_serializing_if = "Option::is_none")]
    test: Option<TestView>,
    unit: &'static str,
    used: usize,
    dropped: Vec<DroppedView>,
    definition: DefinitionView,
}

#[derive(Debug, Serialize)]
struct IntervalView {
    low: f64,
    high: f64,
    level: f64,
    method: &'static str,
}

#[derive(Debug, Serialize)]
struct TestView {
    method: &'static str,
    p: f64,
}

#[derive(Debug, Serialize)]
struct DroppedView {
    units: usize,
    reason: String,
}

#[derive(Debug, Serialize)]
struct DefinitionView {
    says: &'static str,
    source: &'static str,
    decisions: BTreeMap<&'static str, String>,
}

fn interval(interval: &Interval) -> IntervalView {
    let Interval { low, high, level, method } = *interval;
    IntervalView { low, high, level: level.get(), method }
}

pub(super) fn statistic<'a>(told: Told<'_>, compared: &Compared<'a>) -> StatisticView<'a> {
    let Statistic { name: called, value, interval: reach, also, test, used, dropped, definition } =
        told.statistic;
    StatisticView {
        name: called,
        first: told.between.map(|(first, _)| first).or(told.person).map(|first| name(compared, first)),
        second: told.between.map(|(_, second)| name(compared, second)),
        over: told.over,
        kind: told.kind,
        value: value.ok(),
        reason: value.err().map(|reason| reason.to_string()),
        interval: reach.as_ref().ok().map(interval),
        no_interval_because: reach.err().filter(|_| value.is_ok()).map(|reason| reason.to_string()),
        intervals_by_other_methods: also.iter().map(interval).collect(),
        test: test.map(|test| TestView { method: test.method, p: test.p }),
        unit: told.unit,
        used: *used,
        dropped: dropped
            .iter()
            .map(|left| DroppedView { units: left.units, reason: left.why.to_string() })
            .collect(),
        definition: DefinitionView {
            says: definition.says,
            source: definition.source,
            decisions: definition.choices.iter().map(|choice| (choice.name(), choice.to_string())).collect(),
        },
    }
}
