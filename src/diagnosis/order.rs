//! What a call wants done before what: the moves that reach a milestone, for a way that keeps the order.

use call::{Milestone, Question};
use plant::{LeakPlace, Work};
use visit::{AirPoint, Bulb, LeakMethod, Move, Panel, PipePoint, Place, Port, Visit};

/// How a milestone is reached.
pub(crate) enum Reach {
    /// By these moves.
    Moves(Vec<Move>),
    /// By melting the ice and looking.
    Thaw,
    /// By these moves on a plant that has been run up.
    Running(Vec<Move>),
}

/// Milestones that a move is sure to reach, or would break the order by reaching.
pub(crate) fn ahead_of(action: &Move) -> Vec<Milestone> {
    match action {
        // Where no ice is left, the look is the one that says so.
        Move::Look(Place::IndoorCoil) => vec![Milestone::CoilThawed],
        Move::ConnectGauges => vec![Milestone::GaugesConnected],
        Move::Declare(_) => vec![Milestone::CauseDeclared],
        Move::Recover => vec![Milestone::Recovered],
        Move::Evacuate => vec![Milestone::Evacuated],
        Move::WeighIn(_) => vec![Milestone::WeighedIn],
        Move::Verify => vec![Milestone::RepairVerified],
        Move::CloseTicket => vec![Milestone::TicketClosed],
        Move::ReplaceFilter | Move::InsulateBulb | Move::ReplaceMeteringDevice | Move::RepairLeak(_) => {
            vec![Milestone::PartReplaced]
        }
        Move::Mend(work) if Work::PARTS.contains(work) => vec![Milestone::PartReplaced],
        _ => Vec::new(),
    }
}

/// What a call's order wants before a milestone and has not got yet, each as the ways that would do.
pub(crate) fn wanted_before(visit: &Visit, milestone: Milestone) -> Vec<Vec<Milestone>> {
    let reached = |one: &Milestone| visit.milestones().iter().any(|(known, _)| known == one);
    visit
        .call()
        .prerequisites
        .iter()
        .filter(|rule| rule.before == milestone && !rule.one_of.iter().any(reached))
        .map(|rule| rule.one_of.clone())
        .collect()
}

/// How a milestone is reached; `None` for those that come by the repair itself.
pub(crate) fn reach(visit: &Visit, milestone: Milestone) -> Option<Reach> {
    let moves = match milestone {
        Milestone::CustomerAsked => vec![Move::Ask(Question::WhenItStarted)],
        Milestone::DataPlateRead => vec![Move::ReadDataPlate],
        Milestone::CompressorStopped => vec![melting()],
        Milestone::FilterInspected => vec![Move::InspectFilter],
        Milestone::CoilSeen => vec![Move::OpenPanel(Panel::CoilCabinet), Move::Look(Place::IndoorCoil)],
        Milestone::BlowerSeen => vec![
            Move::OpenPanel(Panel::BlowerCompartment),
            Move::WatchBlower,
            Move::ClosePanel(Panel::BlowerCompartment),
        ],
        Milestone::ThermostatRead => vec![Move::Look(Place::Thermostat)],
        Milestone::GaugesConnected => vec![Move::ConnectGauges],
        Milestone::BulbSeen => vec![Move::OpenPanel(Panel::CoilCabinet), Move::Look(Place::MeteringDevice)],
        Milestone::BulbTested => {
            return Some(Reach::Running(vec![
                Move::OpenPanel(Panel::CoilCabinet),
                Move::ConnectGauges,
                Move::WarmBulb,
                Move::PutBulbBack,
            ]));
        }
        Milestone::LeakSearched | Milestone::LeakFound => leak_places(visit)
            .into_iter()
            .map(|place| Move::SearchLeak(place, LeakMethod::ElectronicDetector))
            .collect(),
        Milestone::CoilThawed => return Some(Reach::Thaw),
        Milestone::PressuresRead => {
            return Some(Reach::Running(vec![
                Move::ConnectGauges,
                Move::ReadGauge(Port::Suction),
                Move::ReadGauge(Port::Liquid),
            ]));
        }
        Milestone::SuperheatMeasured => {
            return Some(Reach::Running(vec![
                Move::ConnectGauges,
                Move::ReadPipe(PipePoint::SuctionAtServiceValve),
                Move::ReadGauge(Port::Suction),
            ]));
        }
        Milestone::SubcoolingMeasured => {
            return Some(Reach::Running(vec![
                Move::ConnectGauges,
                Move::ReadPipe(PipePoint::LiquidAtServiceValve),
                Move::ReadGauge(Port::Liquid),
            ]));
        }
        Milestone::TemperatureSplitMeasured => {
            let air = [AirPoint::Return, AirPoint::Supply];
            return Some(Reach::Running(air.map(|point| Move::ReadAir(point, Bulb::Dry)).to_vec()));
        }
        Milestone::DrierDropMeasured => {
            let pipes = [PipePoint::LiquidBeforeDrier, PipePoint::LiquidAfterDrier];
            return Some(Reach::Running(pipes.map(Move::ReadPipe).to_vec()));
        }
        _ => return None,
    };
    (!moves.is_empty()).then_some(Reach::Moves(moves))
}

/// Thermostat off, blower on: what melts the ice soonest.
pub(crate) fn melting() -> Move {
    Move::SetThermostat {
        mode: plant::Mode::Off,
        fan: plant::FanSetting::On,
        set_point: visit::Temperature::Fahrenheit(70.0),
    }
}

fn leak_places(visit: &Visit) -> Vec<LeakPlace> {
    visit.ever_wrong().iter().filter_map(|fault| fault.place).collect()
}
