use crate::claim::words::folded;
use crate::table::{Column, Form};

/// What the cells of a column hold, so that a unit in its heading can be checked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Holds {
    /// Amounts in the schedule's currency.
    Money,
    /// Times in the schedule's unit.
    Time,
    /// Lengths.
    Length,
    /// Percentages.
    Percent,
    /// Areas.
    Area,
    /// Names, whole numbers, remarks.
    Words,
}

/// What a column of a schedule table holds, by its id.
pub(super) fn holds(id: &str) -> Holds {
    match id {
        "per hour" | "amount" | "floor" | "cap" | "adds" | "part" | "paint material" | "parts" => {
            Holds::Money
        }
        "hours" | "fitting" | "conventional" | "refinish" | "blend" => Holds::Time,
        "from" | "to" | "over" | "up to" => Holds::Length,
        "percent" | "share" => Holds::Percent,
        "area" => Holds::Area,
        _ => Holds::Words,
    }
}

pub(super) static TERMS: Form = Form {
    name: "terms",
    columns: &[Column::needed("term", &["terms"]), Column::needed("value", &["values"]), REMARK],
    family: None,
    one_of: &[],
};

pub(super) static LABOUR: Form = Form {
    name: "labour rates",
    columns: &[
        Column::needed("labour", &["labor", "labour class", "labor class"]),
        Column::needed("per hour", &["rate per hour", "amount per hour", "hourly rate"]),
        REMARK,
    ],
    family: None,
    one_of: &[],
};

pub(super) static TAXES: Form = Form {
    name: "taxes",
    columns: &[
        Column::needed("tax on", &["taxed"]),
        Column::needed("percent", &["per cent", "rate"]),
        REMARK,
    ],
    family: None,
    one_of: &[],
};

pub(super) static SIZES: Form = Form {
    name: "size bands",
    columns: &[
        Column::needed("size band", &["size bands", "band of sizes"]),
        Column::needed("from", &["from size"]),
        Column::needed("to", &["to size"]),
        Column::optional("goes by", &["also called", "also headed"]),
        Column::optional("weight", &["equivalents"]),
        REMARK,
    ],
    family: None,
    one_of: &[],
};

pub(super) static COUNTS: Form = Form {
    name: "count bands",
    columns: &[
        Column::needed("count band", COUNT_BAND),
        Column::needed("from dents", &["from", "from count"]),
        Column::needed("to dents", &["to", "to count"]),
        REMARK,
    ],
    family: None,
    one_of: &[],
};

pub(super) static PANELS: Form = Form {
    name: "panels",
    columns: &[
        Column::needed("panel", &["panels"]),
        Column::optional("rated as", &["group"]),
        Column::needed("lies", &[]),
        Column::needed("joined", &[]),
        Column::optional("panel class", &["size class"]),
        Column::optional("area", &[]),
        Column::optional("floor", &["least"]),
        Column::optional("cap", &["most"]),
        REMARK,
    ],
    family: None,
    one_of: &[],
};

pub(super) static RATES: Form = Form {
    name: "rates",
    columns: &[
        Column::needed("rated as", &["group"]),
        Column::needed("size band", &["size bands"]),
        Column::needed("count band", COUNT_BAND),
        Column::optional("amount", &["price"]),
        Column::optional("hours", &["time"]),
        Column::optional("per", &[]),
        REMARK,
    ],
    family: None,
    one_of: &["amount", "hours"],
};

pub(super) static GRID: Form = Form {
    name: "rate grid",
    columns: &[Column::needed("count band", COUNT_BAND), REMARK],
    family: Some(may_head_a_size),
    one_of: &[],
};

pub(super) static MARK_RATES: Form = Form {
    name: "mark rates",
    columns: &[
        Column::needed("mark", &["marks"]),
        Column::optional("panel", &["panels"]),
        Column::needed("over", &["longer than"]),
        Column::needed("up to", &["up to and including"]),
        Column::optional("amount", &["price"]),
        Column::optional("hours", &["time"]),
        REMARK,
    ],
    family: None,
    one_of: &["amount", "hours"],
};

pub(super) static FACTORS: Form = Form {
    name: "factors",
    columns: &[
        Column::needed("factor", &["factors"]),
        Column::needed("looks at", &[]),
        Column::optional("is", &[]),
        Column::optional("order", &[]),
        Column::optional("percent", &["per cent"]),
        Column::optional("adds", &[]),
        Column::optional("hours", &["hour"]),
        Column::optional("of", &[]),
        Column::optional("on", &[]),
        Column::optional("not with", &[]),
        Column::optional("panel", &["panels"]),
        REMARK,
    ],
    family: None,
    one_of: &["percent", "adds", "hours"],
};

pub(super) static TYPICAL: Form = Form {
    name: "typical prices",
    columns: &[
        Column::needed("panel", &["panels"]),
        Column::needed("vehicle class", &["class"]),
        Column::optional("part", &["part price", "price of part", "new part"]),
        Column::optional("fitting", &["fitting time"]),
        Column::optional("conventional", &["conventional repair", "conventional time"]),
        Column::optional("refinish", &["refinish time"]),
        Column::optional("blend", &["blend time"]),
        Column::optional("paint material", &["paint materials"]),
        Column::optional("source", &[]),
        REMARK,
    ],
    family: None,
    one_of: &["part", "fitting", "conventional", "refinish", "blend", "paint material"],
};

pub(super) static LIMITS: Form = Form {
    name: "limits",
    columns: &[
        Column::needed("limit", &["limits"]),
        Column::needed("measures", &[]),
        Column::needed("beyond", &[]),
        Column::needed("then", &[]),
        Column::optional("panel", &["panels"]),
        REMARK,
    ],
    family: None,
    one_of: &[],
};

pub(super) static OPERATIONS: Form = Form {
    name: "operations",
    columns: &[
        Column::needed("operation", &["operations"]),
        Column::needed("panel", &["panels"]),
        Column::optional("access", &[]),
        Column::optional("method", &[]),
        Column::optional("hours", &["time"]),
        Column::optional("labour", &["labor"]),
        Column::optional("parts", &["parts that break"]),
        Column::optional("once per", &[]),
        Column::optional("caution", &["cautions"]),
        REMARK,
    ],
    family: None,
    one_of: &["hours", "parts", "caution"],
};

pub(super) static TITLES: Form = Form {
    name: "title rules",
    columns: &[
        Column::needed("title note", &["note on the title"]),
        Column::needed("registered in", &["place of registration"]),
        Column::needed("compares", &[]),
        Column::optional("when", &[]),
        Column::needed("share", &["share of value", "percent"]),
        Column::optional("with tax", &["tax counts"]),
        Column::optional("not from", &["causes left out"]),
        Column::optional("valid from", &[]),
        Column::optional("valid to", &[]),
        Column::optional("source", &["law"]),
        REMARK,
    ],
    family: None,
    one_of: &[],
};

pub(super) static BETTERMENT: Form = Form {
    name: "betterment",
    columns: &[
        Column::needed("betterment on", &[]),
        Column::needed("percent", &["per cent", "share"]),
        Column::optional("panel", &["panels"]),
        Column::optional("item", &["items"]),
        Column::optional("from years", &["from year"]),
        Column::optional("to years", &["to year"]),
        REMARK,
    ],
    family: None,
    one_of: &[],
};

/// People's own remarks, at which nobody looks. Known in every form, so that a table with remarks is not taken for one of
/// claims, which have them, too.
const REMARK: Column = Column::optional("remark", &["remarks", "note", "notes", "comment", "comments"]);

const COUNT_BAND: &[&str] = &["count bands", "band of counts"];

/// Every form of a schedule's tables.
pub(super) static ALL: &[&Form] = &[
    &TERMS,
    &LABOUR,
    &TAXES,
    &SIZES,
    &COUNTS,
    &PANELS,
    &RATES,
    &GRID,
    &MARK_RATES,
    &FACTORS,
    &TYPICAL,
    &LIMITS,
    &OPERATIONS,
    &BETTERMENT,
    &TITLES,
];

/// Any heading beside `count band` may be a size band's name, except those by which the long tables of rates and the
/// count bands themselves are known.
fn may_head_a_size(heading: &str) -> bool {
    let heading = folded(heading);
    let is_column = |form: &Form| form.columns.iter().any(|column| column.goes_by(&heading));
    !heading.is_empty() && !is_column(&RATES) && !is_column(&COUNTS)
}

/// Whether a heading, or a term, is a remark of somebody's own.
pub(super) fn is_remark(folded: &str) -> bool {
    folded == REMARK.id || REMARK.words.contains(&folded)
}
