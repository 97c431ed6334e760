//! Milestones: one row for each, with what reaches it, how one gets there, and when no sound visit goes without it.

use call::{Milestone, Question};
use plant::Terminal;
use strum::VariantArray;

use crate::action::Move;
use crate::measured::{Measured, Trust};
use crate::moves::Reaches;
use crate::notebook::{Entry, Outcome};
use crate::place::{AirPoint, Bulb, Panel, PipePoint, Place, Port};
use crate::sight::Observation;
use crate::visit::Visit;

/// Readings that are held together must lie within so long of each other, s (engineering value).
const TOGETHER_S: f64 = 600.0;

/// Everything that is to be said of a milestone. Each field is required: the compiler names the one that is missing.
pub struct MilestoneRow {
    /// What reaches it beside the row of a move ([`Move::aims_at`]).
    pub(crate) by: By,
    /// How one gets there.
    pub way: Way,
    /// When no visit is sound without it.
    pub needed: Needed,
}

/// What reaches a milestone.
pub(crate) enum By {
    /// The move that makes it, by its row or its plan.
    Move,
    /// Something that is seen.
    Sight(fn(&Observation) -> bool),
    /// Readings that lie together.
    Readings(fn(&Together<'_>) -> bool),
    /// One reading by itself.
    Reading(fn(Measured) -> bool),
}

/// How one gets to a milestone.
#[derive(Clone, Debug, PartialEq)]
pub enum Way {
    /// By these moves.
    Moves(Vec<Move>),
    /// By these moves on a system that has been run up.
    Running(Vec<Move>),
    /// By stopping the compressor.
    Stop,
    /// By melting the ice and looking.
    Thaw,
    /// By searching where it leaks.
    LeakSearch,
    /// It comes by the repair itself.
    ByTheRepair,
}

/// When no visit is sound without a milestone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Needed {
    /// Always.
    Always,
    /// Where the repair opens the circuit.
    WhereCircuitIsOpened,
    /// Where a rule of the call wants it first.
    WhereARuleAsks,
}

/// Readings that lie together. Pressures alone may be static ones; all else needs a running compressor to mean anything.
pub(crate) struct Together<'a>(&'a [(Measured, Trust)]);

impl Together<'_> {
    fn gauge(&self, port: Port) -> bool {
        self.0.iter().any(|(read, _)| *read == Measured::GaugePressure(port))
    }

    fn running(&self, quantity: Measured) -> bool {
        self.0.iter().any(|(read, trust)| *read == quantity && *trust != Trust::CompressorStopped)
    }

    fn running_gauge(&self, port: Port) -> bool {
        self.running(Measured::GaugePressure(port))
    }

    fn pipe(&self, points: &[PipePoint]) -> bool {
        points.iter().any(|point| self.running(Measured::PipeTemperature(*point)))
    }

    fn dry(&self, point: AirPoint) -> bool {
        self.running(Measured::AirTemperature(point, Bulb::Dry))
    }
}

/// The row of a milestone.
pub fn milestone_row(milestone: Milestone) -> MilestoneRow {
    use Needed::{Always, WhereARuleAsks, WhereCircuitIsOpened};
    use PipePoint as P;
    let (by, way, needed) = match milestone {
        Milestone::CustomerAsked => {
            (By::Move, Way::Moves(vec![Move::Ask(Question::WhenItStarted)]), WhereARuleAsks)
        }
        Milestone::DataPlateRead => (By::Move, Way::Moves(vec![Move::ReadDataPlate]), WhereARuleAsks),
        Milestone::CompressorStopped => (By::Move, Way::Stop, WhereARuleAsks),
        Milestone::FilterInspected => (
            By::Sight(|seen| {
                matches!(
                    seen,
                    Observation::FilterClean
                        | Observation::FilterDirty
                        | Observation::FilterMatted
                        | Observation::FilterCollapsed
                        | Observation::FilterMissing
                )
            }),
            Way::Moves(vec![Move::InspectFilter]),
            WhereARuleAsks,
        ),
        // The look says it itself: it hangs on how far the cabinet is open.
        Milestone::CoilSeen => (
            By::Move,
            Way::Moves(vec![Move::OpenPanel(Panel::CoilCabinet), Move::Look(Place::IndoorCoil)]),
            WhereARuleAsks,
        ),
        Milestone::BlowerSeen => (
            By::Sight(|seen| {
                matches!(
                    seen,
                    Observation::BlowerTurning | Observation::BlowerStill | Observation::BlowerSlow
                )
            }),
            Way::Moves(vec![
                Move::OpenPanel(Panel::BlowerCompartment),
                Move::WatchBlower,
                Move::ClosePanel(Panel::BlowerCompartment),
            ]),
            WhereARuleAsks,
        ),
        Milestone::ThermostatRead => {
            (By::Move, Way::Moves(vec![Move::Look(Place::Thermostat)]), WhereARuleAsks)
        }
        Milestone::ControlVoltageMeasured => (
            By::Reading(|quantity| match quantity {
                Measured::Voltage(from, to) => {
                    [from, to].iter().any(|end| matches!(end, Terminal::Y | Terminal::G))
                }
                _ => false,
            }),
            Way::ByTheRepair,
            WhereARuleAsks,
        ),
        Milestone::CoilThawed => (By::Move, Way::Thaw, WhereARuleAsks),
        Milestone::GaugesConnected => (By::Move, Way::Moves(vec![Move::ConnectGauges]), WhereARuleAsks),
        Milestone::PressuresRead => (
            By::Readings(|read| read.gauge(Port::Suction) && read.gauge(Port::Liquid)),
            Way::Running(vec![
                Move::ConnectGauges,
                Move::ReadGauge(Port::Suction),
                Move::ReadGauge(Port::Liquid),
            ]),
            WhereARuleAsks,
        ),
        Milestone::SuperheatMeasured => (
            By::Readings(|read| {
                read.running_gauge(Port::Suction) && read.pipe(&[P::SuctionAtServiceValve, P::SuctionAtBulb])
            }),
            Way::Running(vec![
                Move::ConnectGauges,
                Move::ReadPipe(P::SuctionAtServiceValve),
                Move::ReadGauge(Port::Suction),
            ]),
            WhereARuleAsks,
        ),
        Milestone::SubcoolingMeasured => (
            By::Readings(|read| {
                read.running_gauge(Port::Liquid)
                    && read.pipe(&[
                        P::LiquidAtServiceValve,
                        P::LiquidBeforeDrier,
                        P::LiquidAfterDrier,
                        P::LiquidAtMeteringDevice,
                    ])
            }),
            Way::Running(vec![
                Move::ConnectGauges,
                Move::ReadPipe(P::LiquidAtServiceValve),
                Move::ReadGauge(Port::Liquid),
            ]),
            WhereARuleAsks,
        ),
        Milestone::TemperatureSplitMeasured => (
            By::Readings(|read| read.dry(AirPoint::Return) && read.dry(AirPoint::Supply)),
            Way::Running(
                [AirPoint::Return, AirPoint::Supply].map(|point| Move::ReadAir(point, Bulb::Dry)).to_vec(),
            ),
            WhereARuleAsks,
        ),
        Milestone::DrierDropMeasured => (
            // Any pair that has the drier between its clamps.
            By::Readings(|read| {
                read.pipe(&[P::LiquidAtServiceValve, P::LiquidBeforeDrier])
                    && read.pipe(&[P::LiquidAfterDrier, P::LiquidAtMeteringDevice])
            }),
            Way::Running([P::LiquidBeforeDrier, P::LiquidAfterDrier].map(Move::ReadPipe).to_vec()),
            WhereARuleAsks,
        ),
        Milestone::BulbSeen => (
            By::Sight(|seen| {
                matches!(seen, Observation::BulbBare | Observation::BulbLoose | Observation::BulbInsulated)
            }),
            Way::Moves(vec![Move::OpenPanel(Panel::CoilCabinet), Move::Look(Place::MeteringDevice)]),
            WhereARuleAsks,
        ),
        Milestone::BulbTested => (
            By::Sight(|seen| {
                matches!(
                    seen,
                    Observation::BulbAnswered
                        | Observation::BulbDidNotAnswer
                        | Observation::ChilledBulbClosedValve
                        | Observation::ChilledBulbDidNotCloseValve
                )
            }),
            Way::Running(vec![
                Move::OpenPanel(Panel::CoilCabinet),
                Move::ConnectGauges,
                Move::WarmBulb,
                Move::PutBulbBack,
            ]),
            WhereARuleAsks,
        ),
        Milestone::LeakSearched => (By::Move, Way::LeakSearch, WhereARuleAsks),
        Milestone::LeakFound => {
            (By::Sight(|seen| matches!(seen, Observation::LeakFound(_))), Way::LeakSearch, WhereARuleAsks)
        }
        Milestone::Recovered | Milestone::Evacuated | Milestone::WeighedIn => {
            (By::Move, Way::ByTheRepair, WhereCircuitIsOpened)
        }
        Milestone::CauseDeclared | Milestone::RepairVerified | Milestone::TicketClosed => {
            (By::Move, Way::ByTheRepair, Always)
        }
        Milestone::PartReplaced => (
            By::Sight(|seen| matches!(seen, Observation::PartWasFaulty(_) | Observation::PartWasSound)),
            Way::ByTheRepair,
            Always,
        ),
        Milestone::PressureTested | Milestone::VacuumHeld | Milestone::RefrigerantAdded => {
            (By::Move, Way::ByTheRepair, WhereARuleAsks)
        }
    };
    MilestoneRow { by, way, needed }
}

impl Visit {
    /// Milestones that the newest entry reaches, beside those that its plan has named.
    pub(crate) fn milestones_of(&self, entry: &Entry) -> Vec<Milestone> {
        let mut reached = match entry.action.row().reaches {
            Reaches::Done(milestone) => vec![milestone],
            Reaches::Nothing | Reaches::IfWell(_) => Vec::new(),
        };
        match &entry.outcome {
            Outcome::Refused(_) => return Vec::new(),
            Outcome::Read(reading) => {
                reached.extend(self.reached_by_reading(entry, reading.quantity, reading.trust));
            }
            Outcome::Seen(seen) => reached.extend(reached_by_sight(seen)),
            Outcome::Verified(found) if found.steady => reached.push(Milestone::RepairVerified),
            Outcome::Verified(_) | Outcome::Done => {}
        }
        reached
    }

    fn reached_by_reading(&self, entry: &Entry, fresh: Measured, trust: Trust) -> Vec<Milestone> {
        let since_s = entry.finished_s - TOGETHER_S;
        let mut readings: Vec<(Measured, Trust)> = self
            .notebook
            .iter()
            .filter(|earlier| earlier.finished_s >= since_s)
            .filter_map(|earlier| match &earlier.outcome {
                Outcome::Read(reading) => Some((reading.quantity, reading.trust)),
                _ => None,
            })
            .filter(|(quantity, _)| *quantity != fresh)
            .collect();
        let without = complete(&readings);
        readings.push((fresh, trust));
        let mut reached: Vec<Milestone> = Milestone::VARIANTS
            .iter()
            .copied()
            .filter(|one| matches!(milestone_row(*one).by, By::Reading(rule) if rule(fresh)))
            .collect();
        reached.extend(complete(&readings).into_iter().filter(|milestone| !without.contains(milestone)));
        reached
    }
}

/// Milestones that a set of readings makes up.
fn complete(readings: &[(Measured, Trust)]) -> Vec<Milestone> {
    let together = Together(readings);
    let is_complete =
        |one: &Milestone| matches!(milestone_row(*one).by, By::Readings(rule) if rule(&together));
    Milestone::VARIANTS.iter().copied().filter(is_complete).collect()
}

/// Milestones that what was seen makes up, each once.
fn reached_by_sight(seen: &[Observation]) -> Vec<Milestone> {
    let mut reached: Vec<Milestone> = Vec::new();
    for observation in seen {
        let shows = |one: &Milestone| matches!(milestone_row(*one).by, By::Sight(rule) if rule(observation));
        let milestone = Milestone::VARIANTS.iter().copied().find(shows);
        reached.extend(milestone.filter(|milestone| !reached.contains(milestone)));
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
    fn a_milestone_is_reached_once_by_what_is_seen() {
        let place = plant::LeakPlace::IndoorCoil;
        let seen = [Observation::LeakFound(place), Observation::LeakFound(place), Observation::NoIce];
        assert_eq!(reached_by_sight(&seen), [Milestone::LeakFound]);
        assert!(reached_by_sight(&[Observation::NoLeakFound(place)]).is_empty());
    }

    /// What a row says is the move's is aimed at by some move, or named by a plan.
    #[test]
    fn a_way_of_moves_ends_where_it_leads() {
        for milestone in Milestone::VARIANTS {
            let row = milestone_row(*milestone);
            if let (By::Move, Way::Moves(moves)) = (row.by, row.way) {
                let leads = moves.iter().any(|action| action.aims_at() == Some(*milestone));
                // The look at the coil aims at a clear one; that it was seen at all its plan says.
                assert!(leads || *milestone == Milestone::CoilSeen, "{milestone:?}");
            }
        }
    }
}
