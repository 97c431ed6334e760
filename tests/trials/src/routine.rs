//! A fixed routine: air, controls, thaw, refrigerant, electrics, leak search, whatever is found on the way.

use call::{Duration, Question, Temperature};
use plant::{Capacitor, Conductor, FanSetting, LeakPlace, Mode, Plant, StepError, Switch, Terminal};
use visit::{AirPoint, Bulb, LeakMethod, Move, Observation, Outcome, Panel, PipePoint, Place, Port, Visit};

/// How a scripted technician goes on after each move.
pub type Follow<'a> = dyn FnMut(&Visit) -> Result<Go, StepError> + 'a;

/// Whether to go on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Go {
    /// More is to be found out.
    On,
    /// Enough is known.
    Enough,
}

/// Works the routine on a visit until it is through or enough is known.
///
/// # Errors
/// If the plant leaves the finite numbers.
pub fn fixed_routine(visit: &mut Visit, follow: &mut Follow<'_>) -> Result<(), StepError> {
    for action in before_the_thaw() {
        if make(visit, &action, follow)? == Go::Enough {
            return Ok(());
        }
    }
    if thaw_and_start(visit, follow)? == Go::Enough {
        return Ok(());
    }
    for action in running() {
        if make(visit, &action, follow)? == Go::Enough {
            return Ok(());
        }
    }
    Ok(())
}

/// Makes a move, if this system and this site allow it.
///
/// # Errors
/// If the plant leaves the finite numbers.
pub fn make(visit: &mut Visit, action: &Move, follow: &mut Follow<'_>) -> Result<Go, StepError> {
    if visit.offer(action.clone()).refused.is_some() {
        return Ok(Go::On);
    }
    visit.perform(action)?;
    follow(visit)
}

/// Melts the ice, if there is any, and lets the plant run for 15 minutes.
///
/// # Errors
/// If the plant leaves the finite numbers.
pub fn thaw_and_start(visit: &mut Visit, follow: &mut Follow<'_>) -> Result<Go, StepError> {
    if is_iced(visit) {
        let off = Move::SetThermostat {
            mode: Mode::Off,
            fan: FanSetting::On,
            set_point: Temperature::Fahrenheit(70.0),
        };
        make(visit, &off, follow)?;
        for _ in 0..12 {
            make(visit, &Move::Wait(Duration::Minutes(30.0)), follow)?;
            make(visit, &Move::Look(Place::IndoorCoil), follow)?;
            if !is_iced(visit) {
                break;
            }
        }
    }
    let start = Move::SetThermostat {
        mode: Mode::Cool,
        fan: FanSetting::Auto,
        set_point: Temperature::Fahrenheit(60.0),
    };
    for action in [Move::OutdoorDisconnect(Switch::Closed), Move::IndoorServiceSwitch(Switch::Closed), start]
    {
        make(visit, &action, follow)?;
    }
    make(visit, &Move::Wait(Duration::Minutes(15.0)), follow)
}

fn before_the_thaw() -> Vec<Move> {
    vec![
        Move::Ask(Question::WhenItStarted),
        Move::Look(Place::Thermostat),
        Move::Look(Place::SupplyRegister),
        Move::Look(Place::ReturnGrille),
        Move::Look(Place::OutdoorUnit),
        Move::Look(Place::LineSet),
        Move::ReadDataPlate,
        Move::InspectFilter,
        Move::OpenPanel(Panel::BlowerCompartment),
        Move::WatchBlower,
        Move::Look(Place::ControlBoard),
        Move::MeasureVoltage { from: Terminal::R, to: Terminal::C },
        Move::MeasureVoltage { from: Terminal::Y, to: Terminal::C },
        Move::MeasureVoltage { from: Terminal::G, to: Terminal::C },
        Move::MeasureVoltage { from: Terminal::TransformerSecondary1, to: Terminal::TransformerSecondary2 },
        Move::MeasureVoltage { from: Terminal::FuseSupply, to: Terminal::C },
        Move::MeasureVoltage { from: Terminal::FloatSwitchIn, to: Terminal::C },
        Move::MeasureVoltage { from: Terminal::FloatSwitchOut, to: Terminal::C },
        Move::MeasureVoltage { from: Terminal::BlowerMotor1, to: Terminal::BlowerMotor2 },
        Move::MeasureVoltage { from: Terminal::EcmLine1, to: Terminal::EcmLine2 },
        Move::MeasureVoltage { from: Terminal::EcmCommand, to: Terminal::EcmCommon },
        Move::MeasureVoltage { from: Terminal::EcmBoardCommand, to: Terminal::C },
        Move::MeasureVoltage { from: Terminal::BlowerRelayCoilG, to: Terminal::BlowerRelayCoilC },
        Move::ClampCurrent(Conductor::BlowerLine),
        Move::OpenPanel(Panel::CoilCabinet),
        Move::Look(Place::IndoorCoil),
    ]
}

fn running() -> Vec<Move> {
    vec![
        Move::Look(Place::IndoorCoil),
        Move::Look(Place::MeteringDevice),
        Move::ReadAir(AirPoint::Return, Bulb::Dry),
        Move::ReadAir(AirPoint::Return, Bulb::Wet),
        Move::ReadAir(AirPoint::Supply, Bulb::Dry),
        Move::Look(Place::SupplyRegister),
        Move::WatchBlower,
        Move::Look(Place::OutdoorUnit),
        Move::ReadAir(AirPoint::Outdoor, Bulb::Dry),
        Move::ConnectGauges,
        Move::ReadGauge(Port::Suction),
        Move::ReadGauge(Port::Liquid),
        Move::ReadPipe(PipePoint::SuctionAtServiceValve),
        Move::ReadPipe(PipePoint::LiquidBeforeDrier),
        Move::ReadPipe(PipePoint::LiquidAfterDrier),
        Move::ReadPipe(PipePoint::Discharge),
        Move::OutdoorDisconnect(Switch::Open),
        Move::OpenPanel(Panel::OutdoorElectrical),
        Move::OutdoorDisconnect(Switch::Closed),
        Move::Look(Place::OutdoorUnit),
        Move::MeasureVoltage { from: Terminal::ContactorCoilY, to: Terminal::ContactorCoilC },
        Move::MeasureVoltage { from: Terminal::ContactorLoad1, to: Terminal::ContactorLoad2 },
        Move::ClampCurrent(Conductor::CompressorCommon),
        Move::ClampCurrent(Conductor::FanCommon),
        Move::SearchLeak(LeakPlace::IndoorCoil, LeakMethod::ElectronicDetector),
        Move::SearchLeak(LeakPlace::SuctionServiceValve, LeakMethod::ElectronicDetector),
        Move::SearchLeak(LeakPlace::LiquidLine, LeakMethod::ElectronicDetector),
        Move::WarmBulb,
        Move::PutBulbBack,
        Move::ChillBulb,
        Move::ReadGauge(Port::Suction),
        Move::PutBulbBack,
        Move::SetThermostat {
            mode: Mode::Off,
            fan: FanSetting::Auto,
            set_point: Temperature::Fahrenheit(70.0),
        },
        Move::Look(Place::OutdoorUnit),
        Move::OutdoorDisconnect(Switch::Open),
        Move::MeasureResistance { from: Terminal::ContactorCoilY, to: Terminal::ContactorCoilC },
        Move::MeasureResistance { from: Terminal::FanMotorCommon, to: Terminal::FanMotorRun },
        Move::DischargeCapacitor(Capacitor::Compressor),
        Move::DischargeCapacitor(Capacitor::OutdoorFan),
        microfarads(Capacitor::Compressor),
        microfarads(Capacitor::OutdoorFan),
        Move::IndoorServiceSwitch(Switch::Open),
        Move::DischargeCapacitor(Capacitor::Blower),
        microfarads(Capacitor::Blower),
        Move::WatchBlower,
        Move::MeasureResistance { from: Terminal::BlowerMotor1, to: Terminal::BlowerMotor2 },
        Move::MeasureResistance { from: Terminal::FuseSupply, to: Terminal::FuseLoad },
        Move::MeasureResistance { from: Terminal::FloatSwitchIn, to: Terminal::FloatSwitchOut },
        // By now the module of an ECM has been without power for more than five minutes.
        Move::MeasureResistance { from: Terminal::EcmMotor1, to: Terminal::EcmMotor2 },
        Move::MeasureResistance { from: Terminal::EcmMotor2, to: Terminal::EcmMotor3 },
    ]
}

fn microfarads(capacitor: Capacitor) -> Move {
    let (from, to) = Plant::capacitor_terminals(capacitor);
    Move::MeasureCapacitance { from, to }
}

/// Whether the last look at the coil, the line or the outdoor unit showed ice.
pub(crate) fn is_iced(visit: &Visit) -> bool {
    visit
        .notebook()
        .iter()
        .rev()
        .find_map(|entry| match (&entry.action, &entry.outcome) {
            (Move::Look(Place::IndoorCoil), Outcome::Seen(seen)) => {
                Some(seen.iter().any(|one| matches!(one, Observation::SomeIce | Observation::BlockOfIce)))
            }
            _ => None,
        })
        .unwrap_or(false)
}
