use crate::batch::{Done, Sink};
use crate::claim::Intake;
use indicatif::{ProgressBar, ProgressStyle};

/// A sink that shows how far the run is, where somebody can see it.
pub struct Progressing<'s, S> {
    sink: &'s mut S,
    bar: ProgressBar,
}

impl<'s, S> Progressing<'s, S> {
    /// Shows the course of `claims` claims on standard error, when that is a terminal.
    pub fn new(sink: &'s mut S, claims: usize) -> Self {
        let bar = ProgressBar::new(claims as u64);
        // The template is fixed and valid; another would only look different.
        if let Ok(style) =
            ProgressStyle::with_template("assessing claim {pos} of {len}, {per_sec}, {eta} left")
        {
            bar.set_style(style);
        }
        Self { sink, bar }
    }
}

impl<S> Drop for Progressing<'_, S> {
    fn drop(&mut self) {
        self.bar.finish_and_clear();
    }
}

impl<S: Sink> Sink for Progressing<'_, S> {
    type Piece = S::Piece;
    type Error = S::Error;

    fn expect<'i>(&mut self, claims: impl Iterator<Item = &'i Intake>) {
        self.sink.expect(claims);
    }

    fn draw(&self, done: &Done<'_>) -> S::Piece {
        self.sink.draw(done)
    }

    fn accept(&mut self, piece: S::Piece) -> Result<(), S::Error> {
        self.bar.inc(1);
        self.sink.accept(piece)
    }
}
