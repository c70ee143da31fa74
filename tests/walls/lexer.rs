//! Just enough of Rust's lexical grammar to tell code from comments and strings: words, numbers, strings and signs,
//! each with its line. Not handled: nothing that rustc accepts is refused, but tokens are not told apart further
//! than the walls need (`->` is two signs).

/// What a token is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// An identifier or keyword, without `r#`.
    Word,
    /// A number with its suffix.
    Number,
    /// The inside of a string literal of any sort, escapes as written.
    Text,
    /// Any other single character.
    Sign,
}

/// A token of code.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Token {
    /// What it is.
    pub kind: Kind,
    /// Its text.
    pub text: String,
    /// Its line, from 1.
    pub line: usize,
}

impl Token {
    /// Whether it is this word.
    pub fn is_word(&self, word: &str) -> bool {
        self.kind == Kind::Word && self.text == word
    }

    /// Whether it is this sign.
    pub fn is_sign(&self, sign: char) -> bool {
        self.kind == Kind::Sign && self.text.starts_with(sign)
    }
}

/// The tokens of a source, comments left out.
pub fn tokens(source: &str) -> Vec<Token> {
    Lexer { chars: source.chars().collect(), at: 0, line: 1, out: Vec::new() }.run()
}

struct Lexer {
    chars: Vec<char>,
    at: usize,
    line: usize,
    out: Vec<Token>,
}

impl Lexer {
    fn run(mut self) -> Vec<Token> {
        while let Some(c) = self.peek(0) {
            match c {
                '/' if self.peek(1) == Some('/') => self.skip_line(),
                '/' if self.peek(1) == Some('*') => self.skip_block(),
                '"' => self.string(),
                '\'' => self.quote(),
                c if c.is_ascii_digit() => self.number(),
                c if c == '_' || c.is_alphabetic() => self.word(),
                c if c.is_whitespace() => {
                    self.take();
                }
                c => {
                    let line = self.line;
                    self.take();
                    self.push(Kind::Sign, c.to_string(), line);
                }
            }
        }
        self.out
    }

    fn peek(&self, ahead: usize) -> Option<char> {
        self.chars.get(self.at + ahead).copied()
    }

    fn take(&mut self) -> Option<char> {
        let c = self.peek(0)?;
        self.at += 1;
        if c == '\n' {
            self.line += 1;
        }
        Some(c)
    }

    fn push(&mut self, kind: Kind, text: String, line: usize) {
        self.out.push(Token { kind, text, line });
    }

    fn skip_line(&mut self) {
        while self.peek(0).is_some_and(|c| c != '\n') {
            self.take();
        }
    }

    /// Block comments nest.
    fn skip_block(&mut self) {
        let mut depth = 0_usize;
        while self.peek(0).is_some() {
            match (self.peek(0), self.peek(1)) {
                (Some('/'), Some('*')) => {
                    depth += 1;
                    self.take();
                }
                (Some('*'), Some('/')) => {
                    depth -= 1;
                    self.take();
                }
                _ => {}
            }
            self.take();
            if depth == 0 {
                return;
            }
        }
    }

    fn string(&mut self) {
        let line = self.line;
        let mut text = String::new();
        self.take();
        while let Some(c) = self.take() {
            match c {
                '"' => break,
                '\\' => {
                    text.push(c);
                    text.extend(self.take());
                }
                c => text.push(c),
            }
        }
        self.push(Kind::Text, text, line);
    }

    /// `r"…"`, `r#"…"#` and so on; stands at the first `#` or `"`.
    fn raw_string(&mut self) {
        let line = self.line;
        let mut hashes = 0;
        while self.peek(0) == Some('#') {
            hashes += 1;
            self.take();
        }
        self.take();
        let mut text = String::new();
        while let Some(c) = self.take() {
            if c == '"' && (0..hashes).all(|i| self.peek(i) == Some('#')) {
                for _ in 0..hashes {
                    self.take();
                }
                break;
            }
            text.push(c);
        }
        self.push(Kind::Text, text, line);
    }

    /// A character literal or a lifetime.
    fn quote(&mut self) {
        let is_escape = self.peek(1) == Some('\\');
        let is_char = is_escape || self.peek(2) == Some('\'');
        self.take();
        if !is_char {
            return;
        }
        while let Some(c) = self.take() {
            match c {
                '\'' => return,
                '\\' => {
                    self.take();
                }
                _ => {}
            }
        }
    }

    /// A number; after a point it is a tuple's index, so `pair.0.1` holds no fraction.
    fn number(&mut self) {
        let line = self.line;
        let is_index = match &self.out[..] {
            [.., before, point] => point.is_sign('.') && !before.is_sign('.'),
            _ => false,
        };
        let mut text = String::new();
        while let Some(c) = self.peek(0) {
            let is_exponent_sign =
                matches!(c, '+' | '-') && text.ends_with(['e', 'E']) && !text.starts_with("0x");
            let is_point = c == '.'
                && !is_index
                && !text.contains('.')
                && !matches!(self.peek(1), Some(next) if next == '.' || next == '_' || next.is_alphabetic());
            if !(c == '_' || c.is_ascii_alphanumeric() || is_exponent_sign || is_point) {
                break;
            }
            text.push(c);
            self.take();
        }
        self.push(Kind::Number, text, line);
    }

    fn word(&mut self) {
        let line = self.line;
        let mut text = String::new();
        while let Some(c) = self.peek(0).filter(|c| *c == '_' || c.is_alphanumeric()) {
            text.push(c);
            self.take();
        }
        match (text.as_str(), self.peek(0), self.peek(1)) {
            ("r" | "br" | "cr", Some('"'), _) | ("r" | "br" | "cr", Some('#'), Some('"' | '#')) => {
                self.raw_string();
            }
            ("b" | "c", Some('"'), _) => self.string(),
            ("b", Some('\''), _) => self.quote(),
            ("r", Some('#'), _) => {
                self.take();
            }
            _ => self.push(Kind::Word, text, line),
        }
    }
}

/// The tokens of what is built for users, and those of test code: items under `#[cfg(test)]` or `#[test]`.
pub fn parted(tokens: &[Token]) -> (Vec<Token>, Vec<Token>) {
    let (mut product, mut test) = (Vec::new(), Vec::new());
    let mut at = 0;
    while at < tokens.len() {
        if starts_test(&tokens[at..]) {
            let end = item_end(tokens, at);
            test.extend_from_slice(&tokens[at..end]);
            at = end;
        } else {
            product.push(tokens[at].clone());
            at += 1;
        }
    }
    (product, test)
}

fn starts_test(tokens: &[Token]) -> bool {
    let words: Vec<&str> = tokens.iter().take(6).map(|token| token.text.as_str()).collect();
    words.starts_with(&["#", "[", "cfg", "(", "test", ")"]) || words.starts_with(&["#", "[", "test", "]"])
}

/// One past the end of the item that starts at `at`: its closing brace, or the semicolon before any brace.
fn item_end(tokens: &[Token], at: usize) -> usize {
    let mut depth = 0_usize;
    for (index, token) in tokens.iter().enumerate().skip(at) {
        if token.is_sign('{') {
            depth += 1;
        } else if token.is_sign('}') {
            depth = depth.saturating_sub(1);
            if depth == 0 {
                return index + 1;
            }
        } else if token.is_sign(';') && depth == 0 {
            return index + 1;
        }
    }
    tokens.len()
}

#[test]
fn comments_and_characters_are_no_code_and_strings_are_kept_apart() {
    let source =
        "// a\n/* b /* c */ d */ let x: &'static str = r#\"say \"e\"\"#; f('\"', b'\\'', \"g\\\"h\");";
    let words: Vec<String> =
        tokens(source).into_iter().filter(|t| t.kind == Kind::Word).map(|t| t.text).collect();
    assert_eq!(words, ["let", "x", "static", "str", "f"].map(String::from).to_vec());
    let texts: Vec<String> =
        tokens(source).into_iter().filter(|t| t.kind == Kind::Text).map(|t| t.text).collect();
    assert_eq!(texts, ["say \"e\"", "g\\\"h"].map(String::from).to_vec());
}

#[test]
fn numbers_are_whole_tokens_and_indices_and_ranges_are_no_fractions() {
    let numbers = |source: &str| -> Vec<String> {
        tokens(source).into_iter().filter(|t| t.kind == Kind::Number).map(|t| t.text).collect()
    };
    assert_eq!(
        numbers("1.5 2e-3 0xfe 1..2 pair.0.1 3.max(4) 5. 1_000u32"),
        ["1.5", "2e-3", "0xfe", "1", "2", "0", "1", "3", "4", "5.", "1_000u32"]
    );
    assert_eq!(numbers("0..1.5"), ["0", "1.5"]);
}

#[test]
fn test_code_is_what_stands_under_its_attributes() {
    let source = "fn a() { b } #[cfg(test)] mod tests { fn c() { d } } #[test] fn e() {} fn g() {}";
    let (product, test) = parted(&tokens(source));
    let has = |tokens: &[Token], word: &str| tokens.iter().any(|token| token.is_word(word));
    assert!(has(&test, "d") && has(&test, "e") && !has(&test, "b") && !has(&test, "g"));
    assert!(has(&product, "b") && has(&product, "g") && !has(&product, "d") && !has(&product, "e"));
}
