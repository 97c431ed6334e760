//! Which calls the programs that hold the engine against itself work on.

use std::ops::Range;

/// Numbers of calls, by default each kind once, of those for development.
#[derive(Clone, Copy, Debug, clap::Args)]
pub struct Numbers {
    /// How many calls.
    #[arg(long, default_value_t = plant::FaultKind::ALL.len() as u64)]
    count: u64,
    /// Number of the first.
    #[arg(long, default_value_t = 10_000)]
    from: u64,
    /// Visits at the same time.
    #[arg(long, default_value_t = 1)]
    pub threads: usize,
}

impl Numbers {
    /// The numbers.
    pub fn range(&self) -> Range<u64> {
        self.from..self.from + self.count
    }
}
