//! Moves as a person would say them: imperative, sentence case.

use call::{Duration, Mass, Pressure, Temperature, TemperatureDifference};
use plant::{FanSetting, Mode, Switch};

use crate::moves::{AirPoint, Bulb, LeakMethod, Location, Move, PipePoint, Place};

/// Label of a move: "Read the suction gauge".
pub fn label(action: &Move) -> String {
    match action {
        Move::Look(place) => format!("Look at the {}", place.label()),
        Move::Ask(question) => format!("Ask: {}", question.label()),
        Move::ReadDataPlate => "Read the data plate".to_owned(),
        Move::SetThermostat { mode, fan, set_point } => thermostat(*mode, *fan, *set_point),
        Move::OutdoorDisconnect(Switch::Open) => "Pull the outdoor disconnect".to_owned(),
        Move::OutdoorDisconnect(Switch::Closed) => "Seat the outdoor disconnect".to_owned(),
        Move::IndoorServiceSwitch(Switch::Open) => "Switch the air handler off".to_owned(),
        Move::IndoorServiceSwitch(Switch::Closed) => "Switch the air handler on".to_owned(),
        Move::OpenPanel(panel) => format!("Open the {}", panel.label()),
        Move::ClosePanel(panel) => format!("Close the {}", panel.label()),
        Move::InspectFilter => "Pull the filter and look at it".to_owned(),
        Move::ReplaceFilter => "Put a new filter in".to_owned(),
        Move::WatchBlower => "Watch the blower wheel".to_owned(),
        Move::MeasureVoltage { from, to } => {
            format!("Measure the voltage from {} to {}", from.label(), to.label())
        }
        Move::MeasureResistance { from, to } => {
            format!("Measure the resistance from {} to {}", from.label(), to.label())
        }
        Move::MeasureCapacitance { from, to } => {
            format!("Measure the capacitance from {} to {}", from.label(), to.label())
        }
        Move::ClampCurrent(conductor) => format!("Clamp the current: {}", conductor.label()),
        Move::ConnectGauges => "Connect the gauges".to_owned(),
        Move::DisconnectGauges => "Disconnect the gauges".to_owned(),
        Move::ReadGauge(port) => format!("Read the {} gauge", port.label()),
        Move::ReadPipe(PipePoint::SensingBulb) => "Read the temperature of the sensing bulb".to_owned(),
        Move::ReadPipe(point) => format!("Read the temperature of the {}", point.label()),
        Move::ReadAir(point, bulb) => format!("Read the {} of the {}", bulb_label(*bulb), air(*point)),
        Move::WarmBulb => "Warm the sensing bulb in your hand".to_owned(),
        Move::ChillBulb => "Chill the sensing bulb in ice water".to_owned(),
        Move::PutBulbBack => "Strap the bulb back as it was".to_owned(),
        Move::InsulateBulb => "Strap and insulate the bulb".to_owned(),
        Move::SearchLeak(place, LeakMethod::ElectronicDetector) => {
            format!("Search for a leak with the detector: {}", place.label())
        }
        Move::SearchLeak(place, LeakMethod::Bubbles) => {
            format!("Search for a leak with bubbles: {}", place.label())
        }
        Move::Recover => "Recover the refrigerant".to_owned(),
        Move::RecoverTo(depth) => format!("Recover the refrigerant down to {}", pressure(*depth)),
        Move::RemoveRefrigerant(weight) => format!("Draw {} of refrigerant off", mass(*weight)),
        Move::PressurizeWithNitrogen(to) => format!("Put nitrogen on to {}", pressure(*to)),
        Move::StandingTest(span) => format!("Let the nitrogen stand for {}", duration(*span)),
        Move::VentNitrogen => "Let the nitrogen off".to_owned(),
        Move::PurgeWithNitrogen => "Purge the circuit with nitrogen".to_owned(),
        Move::RepairLeak(place) => format!("Repair a leak: {}", place.label()),
        Move::ReplaceMeteringDevice => "Replace the metering device and the drier".to_owned(),
        Move::Mend(work) => crate::mend::job(*work)
            .map_or_else(|| format!("Mend by {}", crate::mend::own_move(*work)), |job| job.label.to_owned()),
        Move::DischargeCapacitor(capacitor) => format!("Discharge the {}", capacitor.label()),
        Move::Evacuate => "Evacuate the circuit".to_owned(),
        Move::EvacuateTo { target, within } => {
            format!("Evacuate to {}, for {} at most", pressure(*target), duration(*within))
        }
        Move::DecayTest(span) => format!("Valve the pump off and watch the vacuum for {}", duration(*span)),
        Move::AddVapor(weight) => format!("Add {} of refrigerant as vapour", mass(*weight)),
        Move::ChargeTo { by, target, .. } => {
            format!("Charge to {} of {}", difference(*target), by.label())
        }
        Move::ChangeCylinder(cylinder) => format!("Fetch another {}", cylinder.label()),
        Move::MakeAreaSafe(Location::Indoors) => {
            "Make the air handler's place safe: no flame, air, detector".to_owned()
        }
        Move::MakeAreaSafe(Location::Outdoors) => {
            "Make the outdoor unit's place safe: no flame, detector".to_owned()
        }
        Move::WeighIn(weight) => format!("Weigh in {}", mass(*weight)),
        Move::AddRefrigerant(weight) => format!("Add {} of refrigerant", mass(*weight)),
        Move::Wait(span) => format!("Wait {}", duration(*span)),
        Move::Declare(declaration) => match declaration.place {
            Some(place) => format!("Declare the cause: {}, {}", declaration.cause.label(), place.label()),
            None => format!("Declare the cause: {}", declaration.cause.label()),
        },
        Move::Verify => "Run it and verify the repair".to_owned(),
        Move::CloseTicket => "Tell the customer and close the ticket".to_owned(),
    }
}

fn thermostat(mode: Mode, fan: FanSetting, set_point: Temperature) -> String {
    let fan = match fan {
        FanSetting::Auto => "fan auto",
        FanSetting::On => "fan on",
    };
    match mode {
        Mode::Off => format!("Set the thermostat to off, {fan}"),
        Mode::Cool => format!("Set the thermostat to cool, {fan}, {}", temperature(set_point)),
    }
}

/// Where the place of a move lies, for sentences about it.
pub(crate) fn at(place: Place) -> String {
    format!("at the {}", place.label())
}

pub(crate) fn bulb_label(bulb: Bulb) -> &'static str {
    match bulb {
        Bulb::Dry => "dry bulb",
        Bulb::Wet => "wet bulb",
    }
}

fn air(point: AirPoint) -> &'static str {
    point.label()
}

pub(crate) fn temperature(value: Temperature) -> String {
    match value {
        Temperature::Fahrenheit(t_f) => format!("{} °F", plain(t_f)),
        Temperature::Celsius(t_c) => format!("{} °C", plain(t_c)),
    }
}

pub(crate) fn mass(value: Mass) -> String {
    match value {
        Mass::Ounces(mass_oz) => format!("{} oz", plain(mass_oz)),
        Mass::Pounds(mass_lb) => format!("{} lb", plain(mass_lb)),
        Mass::Grams(mass_g) => format!("{} g", plain(mass_g)),
        Mass::Kilograms(mass_kg) => format!("{} kg", plain(mass_kg)),
    }
}

fn difference(value: TemperatureDifference) -> String {
    match value {
        TemperatureDifference::FahrenheitDifference(difference_f) => format!("{} °F", plain(difference_f)),
        TemperatureDifference::CelsiusDifference(difference_c) => format!("{} K", plain(difference_c)),
    }
}

fn pressure(value: Pressure) -> String {
    match value {
        Pressure::PoundsGauge(pressure_psi) => format!("{} psig", plain(pressure_psi)),
        Pressure::KilopascalsGauge(pressure_kpa) => format!("{} kPa", plain(pressure_kpa)),
        Pressure::InchesOfVacuum(vacuum_in_hg) => format!("{} inHg of vacuum", plain(vacuum_in_hg)),
        Pressure::Microns(pressure_micron) => format!("{} micron", plain(pressure_micron)),
        Pressure::PascalsAbsolute(pressure_pa) => format!("{} Pa absolute", plain(pressure_pa)),
    }
}

fn duration(value: Duration) -> String {
    match value {
        // A wait that was stopped is recorded to the second; nobody reads thousands of them.
        Duration::Seconds(time_s) if time_s >= 60.0 => span(time_s),
        Duration::Seconds(time_s) => format!("{} s", plain(time_s)),
        Duration::Minutes(time_min) if time_min >= 120.0 => span(time_min * 60.0),
        Duration::Minutes(time_min) => format!("{} min", plain(time_min)),
        Duration::Hours(time_h) => format!("{} h", plain(time_h)),
    }
}

/// A span of time from s: "45 s", "12 min", "2 h 05 min".
pub fn span(seconds: f64) -> String {
    let seconds = seconds.max(0.0);
    if seconds < 59.5 {
        return format!("{seconds:.0} s");
    }
    let minutes = (seconds / 60.0).round();
    if minutes < 60.0 {
        format!("{minutes:.0} min")
    } else if minutes % 60.0 == 0.0 {
        format!("{:.0} h", minutes / 60.0)
    } else {
        format!("{:.0} h {:02.0} min", (minutes / 60.0).floor(), minutes % 60.0)
    }
}

/// Up to two decimals, none that are zero.
fn plain(value: f64) -> String {
    let text = format!("{value:.2}");
    if !text.contains('.') {
        return text;
    }
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_wait_is_told_as_people_say_it() {
        for (span, told) in [
            (Duration::Seconds(45.0), "Wait 45 s"),
            (Duration::Seconds(5_154.5), "Wait 1 h 26 min"),
            (Duration::Seconds(61.0), "Wait 1 min"),
            (Duration::Minutes(45.0), "Wait 45 min"),
            (Duration::Minutes(120.0), "Wait 2 h"),
            (Duration::Hours(0.5), "Wait 0.5 h"),
        ] {
            assert_eq!(label(&Move::Wait(span)), told);
        }
    }
}
