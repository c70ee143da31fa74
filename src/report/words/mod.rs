//! The words of documents as data: one file for each language in `templates/words/`, and the forms that numbers and days
//! have at a place.
//!
//! A document is filled with one [`Words`], so that all its formats say the same. Words are made once for a run and live as
//! long as the program. The only user of fluent; numbers and days are in `form`. What is not handled: problems, their
//! pages and `explain` are English whatever the language, and so is a document of which no words are translated yet.

mod form;
mod source;

pub use source::{Fault, own};

use super::wording::label::Labels;
use crate::claim::PanelId;
use crate::claim::words::Named;
use crate::quantity::{Date, Decimal, Length, Money, Percent};
use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use form::Form;
use std::borrow::Cow;
use std::fmt;
use std::sync::LazyLock;
use unic_langid::LanguageIdentifier;

/// The words that come with the tool, by language, as they stand in their files.
pub const BUILT_IN: [(&str, &str); 4] = [
    ("en", include_str!("../../../templates/words/en.ftl")),
    ("de", include_str!("../../../templates/words/de.ftl")),
    ("es", include_str!("../../../templates/words/es.ftl")),
    ("fr", include_str!("../../../templates/words/fr.ftl")),
];

/// The words of one language, with numbers and days in the form of one place.
pub struct Words {
    tag: String,
    own: String,
    bundle: FluentBundle<FluentResource>,
    form: Form,
    /// Headings and labels.
    pub label: Labels,
}

impl fmt::Debug for Words {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Words({})", self.tag)
    }
}

impl PartialEq for Words {
    fn eq(&self, other: &Self) -> bool {
        self.tag == other.tag
    }
}

impl Eq for Words {}

/// What stands in the open places of a text.
#[derive(Debug, Clone)]
pub enum Fill<'a> {
    /// A text, finished.
    Text(Cow<'a, str>),
    /// So many: chooses the plural. The text shows it as `$number`, which is filled in the form of the place.
    Many(u64),
}

impl<'a> From<&'a str> for Fill<'a> {
    fn from(text: &'a str) -> Self {
        Self::Text(Cow::Borrowed(text))
    }
}

impl From<String> for Fill<'_> {
    fn from(text: String) -> Self {
        Self::Text(Cow::Owned(text))
    }
}

impl Words {
    /// The words of a language in the form of a place, both named by a tag as in BCP 47: `de`, `de-CH`. `over` are texts of
    /// the user's own, which stand before those that come with the tool; a language that the tool does not have needs all.
    pub fn of(tag: &str, over: Option<&str>) -> Result<&'static Self, Fault> {
        let language = LanguageIdentifier::from_bytes(tag.as_bytes()).map_err(|_| Fault::no_tag(tag))?;
        let built_in = BUILT_IN.iter().find(|(name, _)| *name == language.language.as_str());
        if built_in.is_none() && over.is_none() {
            return Err(Fault::no_words(tag));
        }
        let form = Form::of(&language.to_string()).ok_or_else(|| Fault::no_tag(tag))?;
        let mut bundle = FluentBundle::new_concurrent(vec![language.clone()]);
        // Texts from sheets are set apart by `said` where they need it.
        bundle.set_use_isolating(false);
        for text in built_in.map(|(_, text)| *text).into_iter().chain(over) {
            let resource = FluentResource::try_new(text.to_owned()).unwrap_or_else(|(resource, _)| resource);
            bundle.add_resource_overriding(resource);
        }
        let mut words = Self {
            tag: language.to_string(),
            own: over.unwrap_or_default().to_owned(),
            bundle,
            form,
            label: Labels::default(),
        };
        words.label = Labels::of(&words);
        // A run has one language beside English: its texts live as long as the program.
        Ok(Box::leak(Box::new(words)))
    }

    /// English, in a form that no country reads otherwise: thousands parted by a narrow space, months in letters.
    pub fn english() -> &'static Self {
        static ENGLISH: LazyLock<Option<&'static Words>> = LazyLock::new(|| Words::of("en", None).ok());
        static NONE: LazyLock<Words> = LazyLock::new(|| Words {
            tag: "en".to_owned(),
            own: String::new(),
            bundle: FluentBundle::new_concurrent(Vec::new()),
            form: Form::International,
            label: Labels::default(),
        });
        ENGLISH.unwrap_or_else(|| &NONE)
    }

    /// The language of the words and the place of the forms, as in BCP 47.
    pub fn tag(&self) -> &str {
        &self.tag
    }

    /// The user's own texts, as their file has them.
    pub fn own_texts(&self) -> &str {
        &self.own
    }

    /// A text with what stands in its open places. A key without a text, which the check of words files does not let
    /// happen, shows itself.
    pub fn say(&self, key: &str, fill: &[(&str, Fill<'_>)]) -> String {
        let mut arguments = FluentArgs::with_capacity(fill.len() + 1);
        for (name, value) in fill {
            match value {
                Fill::Text(text) => arguments.set(*name, FluentValue::from(text.as_ref())),
                Fill::Many(count) => {
                    arguments.set(*name, FluentValue::from(*count));
                    arguments.set("number", FluentValue::from(self.number(Decimal::from(*count))));
                }
            }
        }
        let pattern = self.bundle.get_message(key).and_then(|message| message.value());
        pattern.map_or_else(
            || key.to_owned(),
            |pattern| self.bundle.format_pattern(pattern, Some(&arguments), &mut Vec::new()).into_owned(),
        )
    }

    /// A text without open places.
    pub fn text(&self, key: &str) -> String {
        self.say(key, &[])
    }

    /// So many of a thing: `1 panel`, `13 panels`.
    pub fn so_many(&self, key: &str, count: usize) -> String {
        self.say(key, &[("count", Fill::Many(u64::try_from(count).unwrap_or(u64::MAX)))])
    }

    /// The name of a value of a closed set: a way of repair, a kind of mark.
    pub fn name<T: Named>(&self, value: T) -> String {
        self.text(&key_of(value))
    }

    /// The name of a panel with its side.
    pub fn panel(&self, panel: PanelId) -> String {
        let key = key_of(panel.kind);
        let name = self.text(&key);
        let Some(side) = panel.side else { return name };
        // Sides take the gender of the panel in some languages.
        let gender = self.bundle.get_message(&key).and_then(|message| message.get_attribute("gender"));
        let gender = gender.map_or(Cow::Borrowed("none"), |gender| {
            self.bundle.format_pattern(gender.value(), None, &mut Vec::new())
        });
        let side = key_of(side);
        self.say(
            "panel-on-side",
            &[
                ("panel", name.into()),
                ("side", side.trim_start_matches("side-").into()),
                ("gender", gender.as_ref().into()),
            ],
        )
    }

    /// Several things in one phrase: `a`, `a and b`, `a, b and c`.
    pub fn list(&self, things: &[String]) -> String {
        match things {
            [] => String::new(),
            [one] => one.clone(),
            [first @ .., last] => {
                self.say("list-end", &[("first", first.join(", ").into()), ("last", last.as_str().into())])
            }
        }
    }

    /// An amount without its currency, always with the currency's decimals.
    pub fn amount(&self, money: Money) -> String {
        self.form.number(i128::from(money.minor()), money.currency().decimals())
    }

    /// A number with the decimals it has.
    pub fn number(&self, value: Decimal) -> String {
        self.form.number(value.mantissa(), value.scale())
    }

    /// `19 %`.
    pub fn percent(&self, percent: Percent) -> String {
        self.say("percent", &[("number", self.number(percent.to_decimal()).into())])
    }

    /// A length in millimetres.
    pub fn length(&self, length: Length) -> String {
        format!("{} mm", self.number(length.millimetres()))
    }

    /// A day with its month in letters.
    pub fn date(&self, date: Date) -> String {
        self.form.date(date)
    }
}

/// The key of a value's name: its set, then the name in English, in lower case and parted by hyphens.
fn key_of<T: Named>(value: T) -> String {
    let mut key = String::with_capacity(40);
    for c in T::SET.chars() {
        if c.is_ascii_uppercase() && !key.is_empty() {
            key.push('-');
        }
        key.push(c.to_ascii_lowercase());
    }
    for word in value.name().split(|c: char| !c.is_ascii_alphanumeric()).filter(|word| !word.is_empty()) {
        key.push('-');
        key.push_str(&word.to_ascii_lowercase());
    }
    key
}
