//! What is written beside the parts of the drawing, and how far they have turned.

use visit::{AirPoint, Bulb, Measured, PipePoint};

use crate::view::View;
use crate::wording;
use words::Words;

/// Time that moving parts of the drawing have turned for, s. Stands still while the clock is paused.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Motion {
    /// Seconds of movement.
    pub moved_s: f64,
}

/// Words and numbers beside parts: what an attached instrument displays, or what a hand feels.
pub(super) struct Labels<'a> {
    pub(super) view: &'a View<'a>,
    pub(super) words: Words,
}

impl Labels<'_> {
    /// What an attached instrument displays.
    pub(super) fn displayed(&self, quantity: Measured) -> Option<String> {
        self.view.live_value(quantity).map(|value| self.words.value(quantity, value))
    }

    /// Temperature of a pipe, K.
    pub(super) fn pipe(&self, point: PipePoint, felt_k: f64) -> String {
        self.displayed(Measured::PipeTemperature(point)).unwrap_or_else(|| wording::feel(felt_k, self.words))
    }

    /// Temperature of air.
    pub(super) fn air(&self, point: AirPoint, otherwise: String) -> String {
        self.displayed(Measured::AirTemperature(point, Bulb::Dry)).unwrap_or(otherwise)
    }
}
