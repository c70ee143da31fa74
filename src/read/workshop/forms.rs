use crate::read::columns::{KEYS, REMARK, SIDE, joined};
use crate::table::{Column, Form};

/// The forms of a workshop's tables.
pub(in crate::read) static FORMS: &[&Form] = &[&TECHNICIANS, &BAYS, &DAYS_OFF, &WEEK, &ARRIVALS, &PACE];

const fn form(name: &'static str, columns: &'static [Column]) -> Form {
    Form { name, columns, family: None, one_of: &[] }
}

pub(super) static TECHNICIANS: Form = form("technicians", &OF_TECHNICIANS);
pub(super) static BAYS: Form = form("bays", &OF_BAYS);
pub(super) static DAYS_OFF: Form = form("days off", &OF_DAYS_OFF);
pub(super) static WEEK: Form = form("week", &OF_WEEK);
pub(super) static ARRIVALS: Form = Form {
    name: "arrivals of parts",
    columns: &OF_ARRIVALS,
    family: None,
    one_of: &["claim", "job", "registration", "vin"],
};
pub(super) static PACE: Form = form("pace of paintless work", &OF_PACE);

const TECHNICIAN: [&str; 3] = ["technicians", "technician name", "name of technician"];

static OF_TECHNICIANS: [Column; 4] = joined(&[
    &[
        Column::needed("technician", &TECHNICIAN),
        Column::needed("skills", &["skill", "can do", "trades"]),
        Column::optional(
            "hours a day",
            &["hours per day", "daily hours", "working hours", "hours a working day"],
        ),
    ],
    &REMARK,
]);

static OF_BAYS: [Column; 4] = joined(&[
    &[
        Column::needed("bay", &["bays", "bay name", "name of bay", "work bay"]),
        Column::needed("used for", &["use", "for work", "kind of bay"]),
        Column::optional("how many", &["number of bays", "number"]),
    ],
    &REMARK,
]);

static OF_DAYS_OFF: [Column; 4] = joined(&[
    &[
        Column::needed(
            "off from",
            &["day off", "days off", "holiday", "holidays", "first day off", "closed on"],
        ),
        Column::optional("off until", &["last day off", "off to", "until"]),
        Column::optional("technician", &TECHNICIAN),
    ],
    &REMARK,
]);

static OF_WEEK: [Column; 3] = joined(&[
    &[
        Column::needed("weekday", &["weekdays", "day of the week", "day of week"]),
        Column::needed("worked", &["open", "working", "working day"]),
    ],
    &REMARK,
]);

static OF_ARRIVALS: [Column; 8] = joined(&[
    &[
        Column::needed(
            "arrives",
            &["parts arrive", "parts in", "arrival", "arrival date", "date of arrival", "parts expected"],
        ),
        Column::optional("panel", &["panels", "body panel", "panel name", "name of panel"]),
        SIDE,
    ],
    &KEYS,
    &REMARK,
]);

static OF_PACE: [Column; 2] = joined(&[
    &[Column::needed(
        "paintless an hour",
        &["paintless per hour", "paintless amount an hour", "paintless amount per hour"],
    )],
    &REMARK,
]);
