//! What real equipment shows while it runs. Each bound says where it is from; "typ." is an engineering value, "from memory" a
//! published one that was not looked up again.

use std::fmt;

use media::moist_air;
use media::units::{STANDARD_ATMOSPHERE_PA, celsius_from_kelvin, kelvin_from_fahrenheit};
use plant::{Conductor, FaultKind, Inputs, Motor, Plant, Readout, Saturated, System};

use super::case::Case;

/// A minute's look at a plant.
pub(super) struct Look<'a> {
    pub system: &'a System,
    pub readout: Readout,
    pub saturated: Saturated,
    pub compressor_a: f64,
    /// The whole minute long.
    pub compressor_hums: Hums,
    pub contactor: Contactor,
    /// A compressor that leaks 60 % or more.
    pub leaks_most: bool,
    /// Starts of the compressor in the last minute.
    pub starts: u32,
}

/// Whether the compressor hums with its rotor at rest.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Hums {
    Yes,
    No,
}

/// Whether the contactor lets go.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Contactor {
    Sound,
    Welded,
}

impl Hums {
    pub(super) fn of(plant: &Plant) -> Hums {
        if plant.hums(Motor::Compressor) && !plant.compressor_runs() { Hums::Yes } else { Hums::No }
    }
}

/// When a bound is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum When {
    /// Three minutes after a start, until the compressor stops.
    Running,
    /// Always.
    Always,
}

/// A value in SI, with what it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Reading {
    /// Temperature, K.
    Temperature(f64),
    /// Difference of temperature, K.
    Difference(f64),
    /// Absolute pressure, Pa.
    Pressure(f64),
    /// Current, A.
    Current(f64),
    /// Power or heat flow, W.
    Power(f64),
    /// How often in a minute.
    Count(f64),
    /// That it is so.
    Fact,
}

impl Reading {
    /// The number in SI; 1 for a fact.
    #[must_use]
    pub fn value(self) -> f64 {
        match self {
            Reading::Temperature(value)
            | Reading::Difference(value)
            | Reading::Pressure(value)
            | Reading::Current(value)
            | Reading::Power(value)
            | Reading::Count(value) => value,
            Reading::Fact => 1.0,
        }
    }
}

impl fmt::Display for Reading {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Reading::Temperature(k) => {
                let c = celsius_from_kelvin(k);
                write!(f, "{c:.1} °C ({:.0} °F)", 1.8 * c + 32.0)
            }
            Reading::Difference(k) => write!(f, "{k:.1} K ({:.1} °F)", 1.8 * k),
            Reading::Pressure(pa) => {
                let gauge_pa = pa - STANDARD_ATMOSPHERE_PA;
                write!(f, "{:.0} kPa gauge ({:.1} psig)", gauge_pa / 1.0e3, gauge_pa / 6894.757)
            }
            Reading::Current(a) => write!(f, "{a:.1} A"),
            Reading::Power(w) => write!(f, "{w:.0} W"),
            Reading::Count(times) => write!(f, "{times:.0} a minute"),
            Reading::Fact => write!(f, "so"),
        }
    }
}

/// One bound.
pub struct Bound {
    /// What is bounded.
    pub name: &'static str,
    /// Where the bound is from.
    pub source: &'static str,
    /// When it is looked at.
    pub when: When,
    /// For how many looks in a row, a minute apart, it may be passed: the time in which a protection acts.
    pub allowed_minutes: u32,
    /// By how much it is passed (above 0), and the reading; `None`: it holds, or does not apply.
    pub(super) passed: fn(&Look<'_>) -> Option<(f64, Reading)>,
}

fn above(reading: Reading, most: f64) -> Option<(f64, Reading)> {
    let by = reading.value() - most;
    (by > 0.0).then_some((by, reading))
}

fn below(reading: Reading, least: f64) -> Option<(f64, Reading)> {
    let by = least - reading.value();
    (by > 0.0).then_some((by, reading))
}

impl Look<'_> {
    pub(super) fn of<'a>(
        case: &Case,
        system: &'a System,
        plant: &Plant,
        inputs: &Inputs,
        starts: u32,
        compressor_hums: Hums,
    ) -> Look<'a> {
        Look {
            system,
            readout: plant.readout().clone(),
            saturated: plant.saturated(),
            compressor_a: plant.current_a(inputs, Conductor::CompressorCommon),
            compressor_hums,
            contactor: if case.has(FaultKind::WeldedContactor) {
                Contactor::Welded
            } else {
                Contactor::Sound
            },
            leaks_most: case.severity(FaultKind::CompressorInternalLeak) >= 0.6,
            starts,
        }
    }

    fn nominal_w(&self) -> f64 {
        self.system.data_plate().printed.nominal_capacity_w
    }

    /// Whether there is refrigerant to speak of: liquid anywhere outdoors keeps the head at its saturation there. A nearly empty machine has no head for the seal to lift against, and idles in its own vacuum
    /// until someone stops it.
    fn has_refrigerant(&self) -> bool {
        let r = &self.readout;
        r.liquid_pressure_pa > 0.9 * self.system.refrigerant.tables().dew_pressure_pa(r.outdoor_k)
    }

    /// Whether the compressor moves heat out of the house. One that takes most of what it pumps from its own discharge puts little but
    /// its motor's heat into the circuit: with a house colder than the outdoor air the indoor coil then is one of two condensers.
    fn pumps(&self) -> bool {
        !self.leaks_most
    }

    /// The warmer of the airs through which the lines run, K.
    fn air_around_lines_k(&self) -> f64 {
        self.readout.room_k.max(self.readout.outdoor_k)
    }

    /// By how much the blower's power warms the air that it moves, K.
    fn blower_rise_k(&self) -> f64 {
        let r = &self.readout;
        let return_c = celsius_from_kelvin(r.return_dry_bulb_k);
        let air_kg_s =
            r.airflow_m3_s / moist_air::specific_volume_m3_kg(return_c, 0.01, STANDARD_ATMOSPHERE_PA);
        if air_kg_s > 1.0e-2 { r.blower_power_w / (air_kg_s * moist_air::cp_j_kg_k(0.01)) } else { 0.0 }
    }
}

/// All bounds.
pub const BOUNDS: [Bound; 23] = [
    Bound {
        name: "discharge line above 144 °C (291 °F)",
        source: "scroll makers allow 135 °C in the line (from memory); what ends it is a disc inside, which opens when the gas at \
                 the port is near 149 °C (300 °F), 5 to 15 K more, within some ten minutes (typ.)",
        when: When::Running,
        allowed_minutes: 10,
        passed: |look| above(Reading::Temperature(look.readout.discharge_k), 417.15),
    },
    Bound {
        name: "discharge line above 165 °C (329 °F)",
        source: "beyond the disc's opening by more than metal between gas and disc explains for longer than two minutes (typ.)",
        when: When::Running,
        allowed_minutes: 2,
        passed: |look| above(Reading::Temperature(look.readout.discharge_k), 438.15),
    },
    Bound {
        name: "saturated suction below -40 °C (-40 °F)",
        source: "scrolls of air conditioners run out of cooling gas there, and disc or overload ends it: 0.9 kW of motor and friction \
                 warm 20 kJ/K of scrolls, dome and motor (three tons) by 2.7 K a minute, so by the 60 K that are left in some 22 min \
                 (energy balance)",
        when: When::Running,
        allowed_minutes: 25,
        passed: |look| {
            let evaporating_k = look.saturated.evaporating_k?;
            // When it is cool the shell sheds what the motor gives, and the seal alone bounds the vacuum.
            let warm = look.readout.outdoor_k > kelvin_from_fahrenheit(80.0);
            (warm && look.has_refrigerant())
                .then(|| below(Reading::Temperature(evaporating_k), 233.15))
                .flatten()
        },
    },
    Bound {
        name: "head over 22 times suction",
        source: "the seal of a scroll lifts at a ratio of about 20, before it draws a deep vacuum against a head (application \
                 guidelines, from memory)",
        when: When::Running,
        allowed_minutes: 5,
        passed: |look| {
            let (suction_pa, head_pa) = (look.readout.suction_pressure_pa, look.readout.liquid_pressure_pa);
            look.has_refrigerant().then(|| below(Reading::Pressure(suction_pa), head_pa / 22.0)).flatten()
        },
    },
    Bound {
        name: "superheat below none",
        source: "wet vapour is no colder than bubble: a blend's glide, 1.5 K at most here, below dew",
        when: When::Running,
        allowed_minutes: 0,
        passed: |look| below(Reading::Difference(look.saturated.superheat_k?), -2.0),
    },
    Bound {
        name: "suction line warmer than the air around it",
        source: "nothing else warms it (second law); 3 K for what a clamp takes from the compressor beside it (typ.)",
        when: When::Running,
        allowed_minutes: 0,
        passed: |look| {
            above(Reading::Temperature(look.readout.suction_line_outdoor_k), look.air_around_lines_k() + 3.0)
        },
    },
    Bound {
        name: "suction line at the coil warmer than the return air",
        source: "the coil is warmed by that air (second law)",
        when: When::Running,
        allowed_minutes: 0,
        passed: |look| {
            let r = &look.readout;
            let most_k = r.return_dry_bulb_k + 1.0;
            look.pumps().then(|| above(Reading::Temperature(r.suction_line_indoor_k), most_k)).flatten()
        },
    },
    Bound {
        name: "subcooling below none",
        source: "a mixture of liquid and vapour is no warmer than dew: a blend's glide, 1.5 K at most here, above bubble",
        when: When::Running,
        allowed_minutes: 0,
        passed: |look| below(Reading::Difference(look.saturated.subcooling_k?), -2.0),
    },
    Bound {
        name: "liquid colder than the outdoor air",
        source: "the condenser cools it by that air (second law), and what flashes in a kink comes behind the service valve; 1 K for \
                 the rise of pressure after a cold start",
        when: When::Running,
        allowed_minutes: 0,
        passed: |look| {
            look.saturated.subcooling_k?;
            let r = &look.readout;
            below(Reading::Temperature(r.liquid_service_valve_k), r.outdoor_k - 1.0)
        },
    },
    Bound {
        name: "head above the high-pressure switch",
        source: "the switch opens there; 0.1 MPa for its tolerance, and a condenser full of liquid overshoots for a second (typ.)",
        when: When::Always,
        allowed_minutes: 1,
        passed: |look| {
            // A welded contactor takes no notice; the relief device then holds the head.
            let controls = &look.system.controls;
            let most = if look.contactor == Contactor::Welded {
                controls.relief_pa
            } else {
                controls.high_pressure_opens_pa
            };
            above(Reading::Pressure(look.readout.liquid_pressure_pa), most + 1.0e5)
        },
    },
    Bound {
        name: "condensing below the outdoor air",
        source: "heat goes to that air (second law); where there is some to speak of",
        when: When::Running,
        allowed_minutes: 2,
        passed: |look| {
            let r = &look.readout;
            if r.gross_cooling_w < 0.1 * look.nominal_w() {
                return None;
            }
            below(Reading::Temperature(look.saturated.condensing_k?), r.outdoor_k)
        },
    },
    Bound {
        name: "evaporating above the return air",
        source: "heat comes from that air (second law)",
        when: When::Running,
        allowed_minutes: 0,
        passed: |look| {
            let evaporating_k = look.pumps().then_some(look.saturated.evaporating_k).flatten()?;
            above(Reading::Temperature(evaporating_k), look.readout.return_dry_bulb_k + 0.5)
        },
    },
    Bound {
        name: "supply air warmer than return air and blower make it",
        source: "energy of the air; 0.5 K for a coil that was warm",
        when: When::Running,
        allowed_minutes: 2,
        passed: |look| {
            let r = &look.readout;
            let most_k = r.return_dry_bulb_k + look.blower_rise_k() + 0.5;
            look.pumps().then(|| above(Reading::Temperature(r.supply_dry_bulb_k), most_k)).flatten()
        },
    },
    Bound {
        name: "supply air colder than the refrigerant",
        source: "the air is cooled by it (second law)",
        when: When::Running,
        allowed_minutes: 0,
        passed: |look| {
            let evaporating_k = look.saturated.evaporating_k?;
            let least_k = evaporating_k - 0.5;
            look.pumps()
                .then(|| below(Reading::Temperature(look.readout.supply_dry_bulb_k), least_k))
                .flatten()
        },
    },
    Bound {
        name: "suction above head",
        source: "a running scroll pumps from suction to head; 20 kPa for lines",
        when: When::Running,
        allowed_minutes: 0,
        passed: |look| {
            let r = &look.readout;
            above(Reading::Pressure(r.suction_pressure_pa), r.liquid_pressure_pa + 2.0e4)
        },
    },
    Bound {
        name: "liquid warmer after the drier than before",
        source: "throttling cools (any text on the Joule-Thomson effect; below the inversion)",
        when: When::Running,
        allowed_minutes: 0,
        passed: |look| {
            let r = &look.readout;
            above(Reading::Difference(r.liquid_after_drier_k - r.liquid_before_drier_k), 0.3)
        },
    },
    Bound {
        name: "compressor current above that of the locked rotor",
        source: "no current of that motor at that voltage is larger (plate)",
        when: When::Always,
        allowed_minutes: 0,
        passed: |look| {
            let most_a = look.system.data_plate().printed.locked_rotor_a;
            above(Reading::Current(look.compressor_a), 1.05 * most_a)
        },
    },
    Bound {
        name: "compressor current below that of an idling motor",
        source: "magnetising current alone is a quarter to a half of the rated load's (typ. of such motors)",
        when: When::Running,
        allowed_minutes: 2,
        passed: |look| {
            let rated_a = look.system.data_plate().printed.rated_load_a;
            below(Reading::Current(look.compressor_a), 0.15 * rated_a)
        },
    },
    Bound {
        name: "winding above the opening of its overload",
        source: "the overload opens there; 3 K for a step's rise",
        when: When::Running,
        allowed_minutes: 0,
        passed: |look| {
            let most_k = look.system.compressor.overload_opens_k + 3.0;
            above(Reading::Temperature(look.readout.winding_k), most_k)
        },
    },
    Bound {
        name: "locked rotor under voltage",
        source: "an overload opens on the locked rotor's current in seconds (typ. 2 to 10 s)",
        when: When::Always,
        allowed_minutes: 1,
        passed: |look| (look.compressor_hums == Hums::Yes).then_some((1.0, Reading::Fact)),
    },
    Bound {
        name: "compressor that starts over and over",
        source: "thermostat and the timers at the pressure switches keep it at rest for three minutes (typ.), and what opens \
                 inside its shell closes later still",
        when: When::Always,
        allowed_minutes: 0,
        passed: |look| above(Reading::Count(f64::from(look.starts)), 1.0),
    },
    Bound {
        name: "more cooling than the machine has",
        source: "60 % above nominal is more than any air in these cases gives (typ.)",
        when: When::Running,
        allowed_minutes: 2,
        passed: |look| above(Reading::Power(look.readout.gross_cooling_w), 1.6 * look.nominal_w()),
    },
    Bound {
        name: "coil that heats the air",
        source: "a coil colder than the air takes heat from it (second law); 1 % of nominal for a warm coil of a start. Scrolls \
                 that leak most of what they take in are left out: refrigerant then boils in the warmer coil and condenses in \
                 the colder one, as in a heat pipe, and outdoors may be the warmer",
        when: When::Running,
        allowed_minutes: 2,
        passed: |look| {
            let cooling = Reading::Power(look.readout.gross_cooling_w);
            look.pumps().then(|| below(cooling, -0.01 * look.nominal_w())).flatten()
        },
    },
];

#[cfg(test)]
mod tests {
    use super::*;

    type Doctor = fn(&mut Look<'_>);

    /// A reading for each bound, in order, that is beyond it.
    const BEYOND: [Doctor; BOUNDS.len()] = [
        |look| look.readout.discharge_k = 418.0,
        |look| look.readout.discharge_k = 439.0,
        |look| look.saturated.evaporating_k = Some(232.0),
        |look| look.readout.suction_pressure_pa = 50.0e3,
        |look| look.saturated.superheat_k = Some(-2.1),
        |look| look.readout.suction_line_outdoor_k = 312.0,
        |look| look.readout.suction_line_indoor_k = 302.0,
        |look| look.saturated.subcooling_k = Some(-2.1),
        |look| look.readout.liquid_service_valve_k = 307.0,
        |look| look.readout.liquid_pressure_pa = 4.6e6,
        |look| look.saturated.condensing_k = Some(308.0),
        |look| look.saturated.evaporating_k = Some(301.0),
        |look| look.readout.supply_dry_bulb_k = 302.0,
        |look| look.readout.supply_dry_bulb_k = 270.0,
        |look| look.readout.suction_pressure_pa = 4.0e6,
        |look| look.readout.liquid_after_drier_k = look.readout.liquid_before_drier_k + 0.4,
        |look| look.compressor_a = 200.0,
        |look| look.compressor_a = 0.5,
        |look| look.readout.winding_k = 402.0,
        |look| look.compressor_hums = Hums::Yes,
        |look| look.starts = 2,
        |look| look.readout.gross_cooling_w = 20.0e3,
        |look| look.readout.gross_cooling_w = -500.0,
    ];

    /// No bound is passed by a sound machine, and each is by its own reading.
    #[test]
    fn every_bound_can_be_passed() {
        let case = Case::sound_at_rating_point_a();
        let mut plant = case.plant();
        let system = plant.system().clone();
        let mut inputs = Inputs::default();
        inputs.thermostat.mode = plant::Mode::Cool;
        inputs.thermostat.set_point_k = 250.0;
        plant::advance(&mut plant, &inputs, 1200.0).expect("finite");
        for (bound, doctor) in BOUNDS.iter().zip(BEYOND) {
            let mut look = Look::of(&case, &system, &plant, &inputs, 0, Hums::of(&plant));
            assert_eq!((bound.passed)(&look), None, "{}", bound.name);
            doctor(&mut look);
            assert!((bound.passed)(&look).is_some(), "{}", bound.name);
        }
    }
}
