//! Readings: what the instruments show at a moment, and how far it can be relied on.

use super::Errors;
use crate::coil::CoilAsSeen;
use crate::measured::{Measured, Needs, Read, Trust, instrument};
use crate::notebook::Reading;
use crate::place::{AirPoint, Bulb, Location};
use crate::running::START_UP_S;
use crate::site::Gauges;
use crate::truth::air_k;
use crate::visit::Visit;

/// A blower has come up, or run down, after so long, s (engineering value).
const RUNS_UP_S: f64 = 60.0;

/// An instrument that is attached now.
#[derive(Clone, Debug, PartialEq)]
pub struct LiveReading {
    /// What is measured and where.
    pub quantity: Measured,
    /// What the display shows, in `unit`, lagged and rounded as the instrument is.
    pub value: f64,
    /// SI unit.
    pub unit: &'static str,
    /// Whether the value can be relied on, as far as it can be told at this moment ([`Reading::shown`]).
    pub trust: Trust,
}

impl Visit {
    /// Instruments that are attached now, with what their displays show.
    pub fn live(&self) -> Vec<LiveReading> {
        self.kit
            .attached()
            .into_iter()
            .filter_map(|quantity| {
                let reading = self.read(quantity, self.next_entry_number())?;
                Some(LiveReading {
                    quantity,
                    value: reading.value,
                    unit: quantity.unit(),
                    trust: reading.shown,
                })
            })
            .collect()
    }

    /// Reads an instrument; `None` if none is attached there.
    pub(crate) fn read(&self, quantity: Measured, entry_number: u32) -> Option<Reading> {
        let row = quantity.row();
        let settled_to = match row.read {
            Read::AtOnce(asked) => asked(&self.plant, &self.inputs, quantity),
            Read::Scale => {
                let scale = self.kit.scale.filter(|scale| scale.quantity == quantity)?;
                self.scale_total_kg(quantity) - scale.total_before_kg
            }
            Read::Attached => self.kit.settled_to(quantity)?,
            Read::ByItsMove => return None,
        };
        let class = row.instrument;
        let value = self.kit.shown(quantity, settled_to, entry_number).max(row.shows_from);
        let uncertainty = match self.kit.errors {
            Errors::Rated => class.uncertainty_at(settled_to),
            Errors::None => self.trend.swing(quantity),
        };
        let seen_iced = CoilAsSeen::in_notebook(self.notebook()).is_iced();
        let [trust, shown] = [self.is_iced(), seen_iced].map(|iced| self.trust(quantity, settled_to, iced));
        Some(Reading { quantity, value, uncertainty, trust, shown, piece: self.kit.piece(quantity) })
    }

    /// What a hand-held meter shows of a true value; it shows no sign.
    pub(crate) fn metered(&self, quantity: Measured, truth: f64, entry_number: u32) -> Reading {
        Reading {
            quantity,
            value: self.kit.shown(quantity, truth, entry_number).max(0.0),
            uncertainty: match self.kit.errors {
                Errors::Rated => instrument(quantity).uncertainty_at(truth),
                Errors::None => 0.0,
            },
            trust: Trust::Sound,
            shown: Trust::Sound,
            piece: self.kit.piece(quantity),
        }
    }

    /// What has gone over the scale since the plant was new, kg.
    pub(crate) fn scale_total_kg(&self, quantity: Measured) -> f64 {
        let ledger = self.plant.ledger();
        match quantity {
            Measured::RecoveredMass => ledger.recovered_kg,
            _ => ledger.added_kg,
        }
    }

    /// Whether a value can be relied on, with the coil iced or not.
    fn trust(&self, quantity: Measured, settled_to: f64, iced: bool) -> Trust {
        let truth = self.truth();
        let needs = quantity.row().needs;
        if needs == Needs::Air {
            return if iced {
                Trust::IceOnCoil
            } else if self.running.blower_for_s < RUNS_UP_S {
                Trust::Unsettled
            } else {
                Trust::Sound
            };
        }
        if needs == Needs::RunningPlant {
            if !self.compressor_runs() {
                return Trust::CompressorStopped;
            }
            if iced {
                return Trust::IceOnCoil;
            }
            let too_early = self.plant.compressor_on_for_s() < START_UP_S;
            // With the bulb in a hand or a cup the valve does what the technician wants and not what the coil needs.
            let by_hand = self.site.bulb.is_off_the_line();
            if too_early || by_hand || !self.trend.is_still(truth, quantity) {
                return Trust::Unsettled;
            }
        }
        let target =
            quantity.truth(truth, self.seeded.weather.dew_point_k).filter(|_| needs != Needs::Nothing);
        match target {
            Some(target) if (target - settled_to).abs() > instrument(quantity).accuracy_at(settled_to) => {
                Trust::Unsettled
            }
            _ => Trust::Sound,
        }
    }

    /// Air around an instrument before it is attached, K: dry and wet.
    pub(crate) fn air_around_k(&self, location: Location) -> [f64; 2] {
        let truth = self.truth();
        let dew_point_k = self.seeded.weather.dew_point_k;
        let point = match location {
            Location::Indoors => AirPoint::Return,
            Location::Outdoors => AirPoint::Outdoor,
        };
        [Bulb::Dry, Bulb::Wet].map(|bulb| air_k(truth, dew_point_k, point, bulb))
    }

    /// Whether a quantity can be read without attaching anything first.
    pub(crate) fn is_attached(&self, quantity: Measured) -> bool {
        match quantity {
            Measured::GaugePressure(_) => self.site.gauges == Gauges::On,
            Measured::PipeTemperature(point) => self.kit.has_clamp(point),
            Measured::AirTemperature(point, _) => self.kit.has_probe(point),
            _ => false,
        }
    }
}
