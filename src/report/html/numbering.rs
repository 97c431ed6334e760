//! Figures are numbered in the order in which they stand.

use super::text::figure;

/// Counts the figures.
#[derive(Default)]
pub(super) struct Figures {
    count: u32,
}

impl Figures {
    /// A figure with the next number.
    pub(super) fn add(&mut self, svg: &str, caption: &str) -> String {
        self.count += 1;
        figure(self.count, svg, caption)
    }
}
