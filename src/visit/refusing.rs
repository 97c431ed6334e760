//! Whether a move can be made now: the row of the move asked in one order.

use plant::Metering;

use crate::action::Move;
use crate::moves::{At, Row};
use crate::place::Location;
use crate::refusal::Refusal;
use crate::site::Gauges;
use crate::tick::VISIT_LIMIT_S;
use crate::visit::Visit;

impl Visit {
    /// Why a move cannot be made now; `None` if it can.
    pub(crate) fn refusal(&self, action: &Move) -> Option<Refusal> {
        if self.site.closed {
            return Some(Refusal::TicketClosed);
        }
        if self.time_s() - self.arrival_s >= VISIT_LIMIT_S {
            return Some(Refusal::WeekOver);
        }
        let row = action.row();
        (row.lacks)(self, action)
            .or_else(|| row.hoses.and_then(|refusal| self.no_gauges(refusal)))
            .or_else(|| self.panel_is_on(&row))
            .or_else(|| row.values.iter().find(|value| !value.is_allowed()).map(|value| value.refusal))
            .or_else(|| (row.refusal)(self, action))
    }

    /// The refusal if the hoses are off.
    pub(crate) fn no_gauges(&self, refusal: Refusal) -> Option<Refusal> {
        (self.site.gauges == Gauges::Off).then_some(refusal)
    }

    /// The refusal if what must be open is not; an instrument that is in place is read through a closed panel.
    fn panel_is_on(&self, row: &Row) -> Option<Refusal> {
        let (panel, refusal) = row.panel?;
        (!self.site.is_open(panel) && !self.is_in_place(row.at)).then_some(refusal)
    }

    /// Whether an instrument that a move reads is in place.
    pub(crate) fn is_in_place(&self, at: At) -> bool {
        match at {
            At::Instrument { quantity, .. } => self.is_attached(quantity),
            At::Anywhere | At::Side(_) | At::Bulb => false,
        }
    }

    /// Where the learner must stand for a move; `None` if it does not matter.
    pub(crate) fn location_of(&self, action: &Move) -> Option<Location> {
        match action.row().at {
            At::Anywhere => None,
            At::Side(location) => Some(location),
            At::Bulb => Some(Location::Indoors),
            at @ At::Instrument { location, .. } => (!self.is_in_place(at)).then_some(location),
        }
    }

    /// Whether the metering device has a sensing bulb.
    pub(crate) fn has_bulb(&self) -> bool {
        matches!(self.plant.system().metering, Metering::Txv { .. })
    }
}
