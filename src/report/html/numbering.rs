//! Numbers of the figures of a page.

use maud::Markup;

use super::elements::figure;

/// Counts the figures.
#[derive(Default)]
pub(super) struct Figures {
    count: u32,
}

impl Figures {
    /// A drawing with its caption under the next number.
    pub(super) fn add(&mut self, svg: &Markup, caption: &str) -> Markup {
        self.count += 1;
        figure(self.count, svg, caption)
    }
}
