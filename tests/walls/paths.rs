//! Paths as code names them, `use` groups unfolded, and those that climb with `super` resolved as far as the crate's
//! root.

use crate::Source;
use crate::lexer::{Kind, Token};

/// A path in code.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Named {
    /// Its segments as written: `crate`, `claim`, `words`; `*` for a glob.
    pub segments: Vec<String>,
    /// Where it starts.
    pub line: usize,
    /// How many modules above it the crate's root is; as many `super`s lead there.
    pub depth: usize,
}

impl Named {
    /// The module of the crate's root that it names, if it starts at the root or climbs to it: `None` for paths that
    /// stay inside their stage or belong to another crate; `*` where it takes hold of the whole root.
    pub fn stage(&self) -> Option<&str> {
        let supers = self.segments.iter().take_while(|segment| *segment == "super").count();
        let below_root = match self.segments.first().map(String::as_str) {
            Some("crate" | "stipple") => 1,
            Some("super") if supers >= self.depth => self.depth,
            _ => return None,
        };
        Some(self.segments.get(below_root).map_or("*", String::as_str))
    }
}

/// Every path of a source that has at least two segments or stands after `use`.
pub fn paths(source: &Source) -> Vec<Named> {
    let tokens = source.tokens();
    let outer = module_depth(&source.path);
    let mut inner: Vec<usize> = Vec::new();
    let mut braces = 0_usize;
    let mut found = Vec::new();
    let mut at = 0;
    while at < tokens.len() {
        let token = &tokens[at];
        if token.is_sign('{') {
            if at >= 2 && tokens[at - 2].is_word("mod") && tokens[at - 1].kind == Kind::Word {
                inner.push(braces);
            }
            braces += 1;
        } else if token.is_sign('}') {
            braces = braces.saturating_sub(1);
            if inner.last() == Some(&braces) {
                inner.pop();
            }
        }
        let in_use = token.is_word("use");
        let start = if in_use { at + 1 } else { at };
        if in_use || starts_path(&tokens, at) {
            let mut walk = Walk { tokens: &tokens, at: start, depth: outer + inner.len(), found: &mut found };
            walk.tree(&[], in_use);
            at = walk.at.max(at + 1);
        } else {
            at += 1;
        }
    }
    found
}

/// Modules between a file and the crate's root: none for `src/lib.rs`, one for `src/read/mod.rs`.
fn module_depth(path: &str) -> usize {
    let below = path.trim_start_matches("src/").trim_end_matches(".rs");
    below.split('/').filter(|part| !matches!(*part, "mod" | "lib" | "main")).count()
}

fn starts_path(tokens: &[Token], at: usize) -> bool {
    tokens[at].kind == Kind::Word
        && is_double_colon(tokens, at + 1)
        && !(at >= 2 && is_double_colon(tokens, at - 2))
}

fn is_double_colon(tokens: &[Token], at: usize) -> bool {
    tokens.get(at).is_some_and(|t| t.is_sign(':')) && tokens.get(at + 1).is_some_and(|t| t.is_sign(':'))
}

struct Walk<'t> {
    tokens: &'t [Token],
    at: usize,
    depth: usize,
    found: &'t mut Vec<Named>,
}

impl Walk<'_> {
    /// A path or a group of them after `before`. Outside `use` a brace ends the path.
    fn tree(&mut self, before: &[String], in_use: bool) {
        let mut segments = before.to_vec();
        let line = self.tokens.get(self.at).map_or(0, |token| token.line);
        if is_double_colon(self.tokens, self.at) {
            self.at += 2;
        }
        while let Some(token) = self.tokens.get(self.at) {
            if token.is_sign('{') && in_use {
                self.at += 1;
                self.group(&segments);
                return;
            }
            if token.kind == Kind::Word || (token.is_sign('*') && in_use) {
                segments.push(token.text.clone());
                self.at += 1;
            } else {
                break;
            }
            if !is_double_colon(self.tokens, self.at) {
                break;
            }
            self.at += 2;
        }
        if self.tokens.get(self.at).is_some_and(|token| token.is_word("as")) && in_use {
            self.at += 2;
        }
        self.found.push(Named { segments, line, depth: self.depth });
    }

    fn group(&mut self, before: &[String]) {
        while let Some(token) = self.tokens.get(self.at) {
            if token.is_sign('}') {
                self.at += 1;
                return;
            }
            if token.is_sign(',') {
                self.at += 1;
                continue;
            }
            let start = self.at;
            self.tree(before, true);
            if self.at == start {
                return;
            }
        }
    }
}

#[test]
fn groups_are_unfolded_and_super_is_followed_to_the_root() {
    let source = Source::new(
        "src/read/sizes.rs",
        "use crate::{claim::{A, words::b}, table::*}; use super::super::assess; use super::x;\n\
         mod tests { use super::super::super::batch::Run; fn f() { crate::report::wording::line() } }",
    );
    let stages: Vec<Option<String>> =
        paths(&source).iter().map(|named| named.stage().map(str::to_owned)).collect();
    let told: Vec<Option<&str>> = stages.iter().map(Option::as_deref).collect();
    assert_eq!(
        told,
        [Some("claim"), Some("claim"), Some("table"), Some("assess"), None, Some("batch"), Some("report")]
    );
}
