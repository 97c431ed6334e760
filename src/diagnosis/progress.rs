//! Who is told how far long work is, and says whether it is still wanted.

/// How far work is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Done {
    /// Share of it, 0 to 1.
    Share(f64),
    /// Steps made, where nobody knows how many there will be.
    Steps(usize),
}

/// The one who waits for long work. Asked from several threads.
pub trait Progress: Sync {
    /// Takes in how far the work is.
    fn report(&self, done: Done);

    /// Whether the result is not wanted any more; the work ends soon then.
    fn is_cancelled(&self) -> bool;

    /// Tells how far the work is; whether to go on with it.
    fn goes_on(&self, done: Done) -> bool {
        self.report(done);
        !self.is_cancelled()
    }
}

/// Nobody looks, and all of it is wanted.
#[derive(Clone, Copy, Debug, Default)]
pub struct Unwatched;

impl Progress for Unwatched {
    fn report(&self, _done: Done) {}

    fn is_cancelled(&self) -> bool {
        false
    }
}

/// A part of some work: its shares are laid between two shares of the whole.
#[derive(Clone, Copy)]
pub struct Portion<'a> {
    whole: &'a dyn Progress,
    from: f64,
    to: f64,
}

impl<'a> Portion<'a> {
    /// The part of `whole` between two shares of it.
    pub fn of(whole: &'a dyn Progress, from: f64, to: f64) -> Portion<'a> {
        Portion { whole, from, to }
    }
}

impl Progress for Portion<'_> {
    fn report(&self, done: Done) {
        self.whole.report(match done {
            Done::Share(share) => Done::Share(self.from + (self.to - self.from) * share),
            steps @ Done::Steps(_) => steps,
        });
    }

    fn is_cancelled(&self) -> bool {
        self.whole.is_cancelled()
    }
}

/// Work whose own progress says nothing of the whole: it can only be stopped.
#[derive(Clone, Copy)]
pub struct Within<'a>(pub &'a dyn Progress);

impl Progress for Within<'_> {
    fn report(&self, _done: Done) {}

    fn is_cancelled(&self) -> bool {
        self.0.is_cancelled()
    }
}
