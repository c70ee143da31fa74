//! Documents as self-contained HTML: one file each, no script, nothing fetched, print-ready.
//!
//! The only user of tera. Templates are parsed once for a whole run; the model of a document is all that they see. Every
//! text is escaped when it is written, whoever wrote it.

use super::batch_page::BatchOverview;
use super::bordereau_page::BordereauPage;
use super::comparison::document::{Letter, Report};
use super::document::{Document, Kind, OwnerSheet, SupplementPage, WorkOrder};
use super::form::CountForm;
use super::lot_page::LotPage;
use super::plan::PlanPage;
use super::register::RegisterPage;
use super::wording::label::LABELS;
use serde::Serialize;
use std::fmt::{self, Write as _};
use std::io;
use tera::{Context, Kwargs, State, Tera};

/// Templates by the name they call each other by. Names that end in `.html` and `.svg` are escaped.
const TEMPLATES: [(&str, &str); 28] = [
    ("style.css", include_str!("../../templates/style.css")),
    ("comparison.css", include_str!("../../templates/comparison.css")),
    ("frame.html", include_str!("../../templates/frame.html")),
    ("pieces.html", include_str!("../../templates/pieces.html")),
    ("page.html", include_str!("../../templates/page.html")),
    ("claim.html", include_str!("../../templates/claim.html")),
    ("quotation.html", include_str!("../../templates/quotation.html")),
    ("plot_points.svg", include_str!("../../templates/plot_points.svg")),
    ("plot_steps.svg", include_str!("../../templates/plot_steps.svg")),
    ("comparison_pieces.html", include_str!("../../templates/comparison_pieces.html")),
    ("comparison.html", include_str!("../../templates/comparison.html")),
    ("adjudication.html", include_str!("../../templates/adjudication.html")),
    ("letter.html", include_str!("../../templates/letter.html")),
    ("work_order.html", include_str!("../../templates/work_order.html")),
    ("sort.js", include_str!("../../templates/sort.js")),
    ("overview.html", include_str!("../../templates/overview.html")),
    ("register.html", include_str!("../../templates/register.html")),
    ("lot.html", include_str!("../../templates/lot.html")),
    ("plan.css", include_str!("../../templates/plan.css")),
    ("plan.html", include_str!("../../templates/plan.html")),
    ("owner.html", include_str!("../../templates/owner.html")),
    ("supplement.html", include_str!("../../templates/supplement.html")),
    ("bordereau.html", include_str!("../../templates/bordereau.html")),
    ("form.css", include_str!("../../templates/form.css")),
    ("tally.html", include_str!("../../templates/tally.html")),
    ("counting.css", include_str!("../../templates/counting.css")),
    ("counting.js", include_str!("../../templates/counting.js")),
    ("counting.html", include_str!("../../templates/counting.html")),
];

/// Why a template or a page could not be made: the template's file, line and column are in the text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TemplateFault {
    message: String,
}

impl fmt::Display for TemplateFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for TemplateFault {}

impl From<tera::Error> for TemplateFault {
    fn from(error: tera::Error) -> Self {
        Self { message: error.to_string() }
    }
}

/// Draws documents as HTML. Made once for a run; drawing may happen on many threads.
#[derive(Debug, Clone)]
pub struct Pages {
    tera: Tera,
}

impl Pages {
    /// Parses the templates that come with the tool.
    pub fn new() -> Result<Self, TemplateFault> {
        let mut tera = Tera::new();
        tera.set_escape_fn(escape);
        // Templates are checked against the filters when they are added.
        tera.register_filter("in_css", in_css);
        tera.autoescape_on(vec![".html", ".svg"]);
        tera.add_raw_templates(TEMPLATES)?;
        tera.global_context().insert("label", &LABELS);
        Ok(Self { tera })
    }

    /// One document as a whole HTML file.
    pub fn claim(&self, document: &Document) -> Result<String, TemplateFault> {
        let template = match document.kind {
            Kind::Claim => "claim.html",
            Kind::Quotation => "quotation.html",
        };
        self.page(template, document)
    }

    /// A work order as a whole HTML file.
    pub fn work_order(&self, order: &WorkOrder) -> Result<String, TemplateFault> {
        self.page("work_order.html", order)
    }

    /// An owner's sheet as a whole HTML file.
    pub fn owner_sheet(&self, sheet: &OwnerSheet) -> Result<String, TemplateFault> {
        self.page("owner.html", sheet)
    }

    /// A supplement as a whole HTML file.
    pub fn supplement(&self, page: &SupplementPage) -> Result<String, TemplateFault> {
        self.page("supplement.html", page)
    }

    /// The bordereau of a batch as a whole HTML file.
    pub fn bordereau(&self, page: &BordereauPage) -> Result<String, TemplateFault> {
        self.page("bordereau.html", page)
    }

    /// The overview of a batch as a whole HTML file.
    pub fn overview(&self, overview: &BatchOverview) -> Result<String, TemplateFault> {
        self.page("overview.html", overview)
    }

    /// A register as a whole HTML file.
    pub fn register(&self, register: &RegisterPage) -> Result<String, TemplateFault> {
        self.page("register.html", register)
    }

    /// A tally sheet for print as a whole HTML file.
    pub fn tally(&self, form: &CountForm) -> Result<String, TemplateFault> {
        self.page("tally.html", form)
    }

    /// A page to count on, for a tablet, as a whole HTML file with its script.
    pub fn counting(&self, form: &CountForm) -> Result<String, TemplateFault> {
        let mut context = Context::from_serialize(form)?;
        let data = form.json().map_err(|error| TemplateFault { message: error.to_string() })?;
        context.insert("data", &data);
        Ok(self.tera.render("counting.html", &context)?)
    }

    /// The statement of a lot as a whole HTML file.
    pub fn lot(&self, statement: &LotPage) -> Result<String, TemplateFault> {
        self.page("lot.html", statement)
    }

    /// A plan of the work as a whole HTML file.
    pub fn plan(&self, plan: &PlanPage) -> Result<String, TemplateFault> {
        self.page("plan.html", plan)
    }

    fn page(&self, template: &str, model: &impl Serialize) -> Result<String, TemplateFault> {
        Ok(self.tera.render(template, &Context::from_serialize(model)?)?)
    }

    /// The report of a comparison as a whole HTML file.
    pub fn comparison(&self, report: &Report) -> Result<String, TemplateFault> {
        Ok(self.tera.render("comparison.html", &Context::from_serialize(report)?)?)
    }

    /// The sheets of a comparison to agree on, likewise.
    pub fn adjudication(&self, report: &Report) -> Result<String, TemplateFault> {
        Ok(self.tera.render("adjudication.html", &Context::from_serialize(report)?)?)
    }

    /// One of its letters, likewise.
    pub fn letter(&self, report: &Report, letter: &Letter) -> Result<String, TemplateFault> {
        let mut context = Context::from_serialize(report)?;
        context.insert("letter", letter);
        Ok(self.tera.render("letter.html", &context)?)
    }
}

/// Escapes for text and quoted attributes. Control characters, which HTML has no place for, are shown as the sign for
/// something unreadable; line breaks and tabs stay.
fn escape(text: &str, out: &mut dyn io::Write) -> io::Result<()> {
    let bytes = text.as_bytes();
    let mut start = 0;
    for (index, byte) in bytes.iter().enumerate() {
        let replacement: &[u8] = match byte {
            b'&' => b"&amp;",
            b'<' => b"&lt;",
            b'>' => b"&gt;",
            b'"' => b"&quot;",
            b'\'' => b"&#39;",
            b'\n' | b'\t' => continue,
            0..=0x1f | 0x7f => "\u{fffd}".as_bytes(),
            _ => continue,
        };
        out.write_all(&bytes[start..index])?;
        out.write_all(replacement)?;
        start = index + 1;
    }
    out.write_all(&bytes[start..])
}

/// A text inside a quoted CSS string: everything but letters and digits becomes a CSS escape, so that it can end neither
/// the string nor the style element.
fn in_css(text: &str, _: Kwargs, _: &State<'_>) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        if c.is_ascii_alphanumeric() {
            out.push(c);
        } else if !c.is_control() {
            let _ = write!(out, "\\{:x} ", u32::from(c));
        }
    }
    out
}
