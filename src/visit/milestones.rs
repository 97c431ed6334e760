//! Milestones that moves reach.

use call::Milestone;

use crate::moves::{AirPoint, Bulb, Move, PipePoint, Port};
use crate::notebook::{Entry, Measured, Outcome, Trust};
use crate::sight::Observation;
use crate::visit::Visit;

/// Readings that are held together must lie within so long of each other, s (engineering value).
const TOGETHER_S: f64 = 600.0;

impl Visit {
    /// Milestones that the newest entry reaches, beside those that the move itself names.
    pub(crate) fn milestones_of(&self, entry: &Entry) -> Vec<Milestone> {
        match &entry.outcome {
            Outcome::Refused(_) => Vec::new(),
            Outcome::Read(reading) => self.reached_by_reading(entry, reading.quantity, reading.trust),
            Outcome::Seen(seen) => reached_by_sight(&entry.action, seen),
            Outcome::Verified(found) if found.steady => vec![Milestone::RepairVerified],
            Outcome::Verified(_) => Vec::new(),
            Outcome::Done => match entry.action {
                Move::Ask(_) => vec![Milestone::CustomerAsked],
                Move::ReadDataPlate => vec![Milestone::DataPlateRead],
                Move::SetThermostat { .. } => vec![Milestone::ThermostatRead],
                Move::ConnectGauges => vec![Milestone::GaugesConnected],
                Move::Declare(_) => vec![Milestone::CauseDeclared],
                Move::CloseTicket => vec![Milestone::TicketClosed],
                _ => Vec::new(),
            },
        }
    }

    fn reached_by_reading(&self, entry: &Entry, fresh: Measured, trust: Trust) -> Vec<Milestone> {
        if let Measured::Voltage(from, to) = fresh {
            let at_command = |terminal| matches!(terminal, plant::Terminal::Y | plant::Terminal::G);
            return if at_command(from) || at_command(to) {
                vec![Milestone::ControlVoltageMeasured]
            } else {
                Vec::new()
            };
        }
        let since_s = entry.finished_s - TOGETHER_S;
        let mut others: Vec<(Measured, Trust)> = self
            .notebook
            .iter()
            .filter(|earlier| earlier.finished_s >= since_s)
            .filter_map(|earlier| match &earlier.outcome {
                Outcome::Read(reading) => Some((reading.quantity, reading.trust)),
                _ => None,
            })
            .filter(|(quantity, _)| *quantity != fresh)
            .collect();
        let without = complete(&others);
        others.push((fresh, trust));
        complete(&others).into_iter().filter(|milestone| !without.contains(milestone)).collect()
    }
}

/// Milestones that a set of readings makes up. Pressures alone may be static ones; all else needs a running
/// compressor to mean anything.
fn complete(readings: &[(Measured, Trust)]) -> Vec<Milestone> {
    let any = |quantity: Measured| readings.iter().any(|(read, _)| *read == quantity);
    let running = |quantity: Measured| {
        readings.iter().any(|(read, trust)| *read == quantity && *trust != Trust::CompressorStopped)
    };
    let pipe = |point: PipePoint| running(Measured::PipeTemperature(point));
    let dry = |point: AirPoint| running(Measured::AirTemperature(point, Bulb::Dry));
    let pressure = Measured::GaugePressure;
    [
        (Milestone::PressuresRead, any(pressure(Port::Suction)) && any(pressure(Port::Liquid))),
        (
            Milestone::SuperheatMeasured,
            running(pressure(Port::Suction))
                && (pipe(PipePoint::SuctionAtServiceValve) || pipe(PipePoint::SuctionAtBulb)),
        ),
        (
            Milestone::SubcoolingMeasured,
            running(pressure(Port::Liquid))
                && (pipe(PipePoint::LiquidAtServiceValve)
                    || pipe(PipePoint::LiquidBeforeDrier)
                    || pipe(PipePoint::LiquidAfterDrier)
                    || pipe(PipePoint::LiquidAtMeteringDevice)),
        ),
        (Milestone::TemperatureSplitMeasured, dry(AirPoint::Return) && dry(AirPoint::Supply)),
        (
            Milestone::DrierDropMeasured,
            // Any pair that has the drier between its clamps.
            (pipe(PipePoint::LiquidAtServiceValve) || pipe(PipePoint::LiquidBeforeDrier))
                && (pipe(PipePoint::LiquidAfterDrier) || pipe(PipePoint::LiquidAtMeteringDevice)),
        ),
    ]
    .into_iter()
    .filter(|(_, met)| *met)
    .map(|(milestone, _)| milestone)
    .collect()
}

fn reached_by_sight(action: &Move, seen: &[Observation]) -> Vec<Milestone> {
    use crate::moves::Place;
    let mut reached = Vec::new();
    if *action == Move::Look(Place::Thermostat) {
        reached.push(Milestone::ThermostatRead);
    }
    for observation in seen {
        let milestone = match observation {
            Observation::FilterClean
            | Observation::FilterDirty
            | Observation::FilterMatted
            | Observation::FilterCollapsed
            | Observation::FilterMissing => Some(Milestone::FilterInspected),
            Observation::BlowerTurning | Observation::BlowerStill | Observation::BlowerSlow => {
                Some(Milestone::BlowerSeen)
            }
            Observation::BulbBare | Observation::BulbLoose | Observation::BulbInsulated => {
                Some(Milestone::BulbSeen)
            }
            Observation::BulbAnswered
            | Observation::BulbDidNotAnswer
            | Observation::ChilledBulbClosedValve
            | Observation::ChilledBulbDidNotCloseValve => Some(Milestone::BulbTested),
            Observation::LeakFound(_) => Some(Milestone::LeakFound),
            Observation::PartWasFaulty(_) | Observation::PartWasSound => Some(Milestone::PartReplaced),
            _ => None,
        };
        reached.extend(milestone.filter(|milestone| !reached.contains(milestone)));
    }
    if matches!(action, Move::SearchLeak(..)) {
        reached.insert(0, Milestone::LeakSearched);
    }
    reached
}

#[cfg(test)]
mod tests {
    use super::*;

    const SUCTION: Measured = Measured::GaugePressure(Port::Suction);
    const LINE: Measured = Measured::PipeTemperature(PipePoint::SuctionAtServiceValve);

    #[test]
    fn superheat_needs_a_running_compressor() {
        assert!(
            complete(&[(SUCTION, Trust::Sound), (LINE, Trust::Sound)])
                .contains(&Milestone::SuperheatMeasured)
        );
        assert!(
            !complete(&[(SUCTION, Trust::CompressorStopped), (LINE, Trust::CompressorStopped)])
                .contains(&Milestone::SuperheatMeasured)
        );
        assert!(!complete(&[(SUCTION, Trust::Sound)]).contains(&Milestone::SuperheatMeasured));
    }

    #[test]
    fn a_search_is_reached_before_its_find() {
        let place = plant::LeakPlace::IndoorCoil;
        let action = Move::SearchLeak(place, crate::moves::LeakMethod::Bubbles);
        assert_eq!(
            reached_by_sight(&action, &[Observation::LeakFound(place)]),
            [Milestone::LeakSearched, Milestone::LeakFound]
        );
        assert_eq!(reached_by_sight(&action, &[Observation::NoLeakFound(place)]), [Milestone::LeakSearched]);
    }
}
