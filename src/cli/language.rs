//! The language of documents.

use crate::problem::{Problem, catalogue::output, nearest};
use crate::report::words::{Fault, Words, own};
use clap::Args;
use std::fs;
use std::path::{Path, PathBuf};

/// How documents speak.
#[derive(Debug, Args)]
pub struct LanguageArgs {
    /// Language of the owners' sheets, and the place whose form their numbers and days have: en, de, es or fr, also with a
    /// country, such as de-CH or en-US. Everything else is in English.
    #[arg(long, value_name = "LANGUAGE", default_value = "en")]
    language: String,

    /// Texts of your own in that language: those in this file stand before the program's. A language that the program does
    /// not have needs all of them. The files that come along are in templates/words.
    #[arg(long, value_name = "FILE")]
    words: Option<PathBuf>,
}

impl LanguageArgs {
    /// Its words, or everything that is wrong with them.
    pub fn words(&self) -> Result<&'static Words, Vec<Problem>> {
        let no_language = |fault: Fault| {
            let known: Vec<&str> = fault.known.iter().map(String::as_str).collect();
            vec![output::no_such_language(&fault.what, &known)]
        };
        let Some(path) = &self.words else {
            return if self.language == "en" {
                Ok(Words::english())
            } else {
                Words::of(&self.language, None).map_err(no_language)
            };
        };
        let text = fs::read_to_string(path);
        let text = text.map_err(|error| vec![told(path, None, &error.to_string(), &[])])?;
        let words = Words::of(&self.language, Some(&text)).map_err(no_language)?;
        let faults = own(&self.language, &text);
        if faults.is_empty() {
            return Ok(words);
        }
        Err(faults
            .iter()
            .map(|fault| {
                let near = nearest(&fault.written, fault.known.iter().map(String::as_str));
                told(path, fault.line, &fault.what, &near)
            })
            .collect())
    }
}

fn told(path: &Path, line: Option<usize>, what: &str, near: &[&str]) -> Problem {
    output::words_not_understood(&path.display().to_string(), line, what, near)
}
