//! What a compressor does to save itself.

use crate::chamber::{A, at_rest, calling, fault, named, orifice, settled, valve};
use crate::check::{Check, Print, Published, Topic};
use media::units::{STANDARD_ATMOSPHERE_PA, fahrenheit_from_kelvin, psi_from_pa, psig_from_pa};
use plant::{FaultKind, RefrigerantName, System, advance};

/// Hottest gas that a scroll lets through before its disc opens, °F.
const DISC_OPENS_F: f64 = 300.0;

pub fn topic() -> Topic {
    let mut checks = Vec::new();
    for (refrigerant, low, high) in
        [(RefrigerantName::R410A, 550.0, 625.0), (RefrigerantName::R22, 350.0, 450.0)]
    {
        let reliefs: Vec<f64> = System::names()
            .iter()
            .map(|name| named(name))
            .filter(|system| system.refrigerant == refrigerant)
            .map(|system| psi_from_pa(system.compressor.relief_opens_pa))
            .collect();
        for (what, value) in [
            ("least", reliefs.iter().copied().fold(f64::INFINITY, f64::min)),
            ("most", reliefs.iter().copied().fold(f64::NEG_INFINITY, f64::max)),
        ] {
            checks.push(
                Check::new(
                    format!("{refrigerant:?}: internal relief opens, {what} of all systems"),
                    "psi",
                    0,
                    Published::Between { low, high },
                    value,
                )
                .of_table(),
            );
        }
    }
    for (device, system) in [("valve", valve()), ("orifice", orifice())] {
        // The line at the outside is cooler than the port inside, so that this is generous.
        let hottest = [0.7, 0.6, 0.5, 0.4, 0.3]
            .map(|share| settled(&system, A, share, &[]).readout.discharge_k)
            .into_iter()
            .fold(0.0, f64::max);
        checks.push(Check::new(
            format!("{device}, 70 to 30 % charge: hottest discharge line in settled running"),
            "°F",
            0,
            Published::AtMost(DISC_OPENS_F),
            fahrenheit_from_kelvin(hottest),
        ));
        let mut plant = at_rest(&system, A);
        plant.inject(fault(FaultKind::MeteringRestricted, 1.0));
        let mut lowest_pa = f64::INFINITY;
        for _ in 0..60 {
            advance(&mut plant, &calling(), 30.0).expect("finite");
            lowest_pa = lowest_pa.min(plant.readout().suction_pressure_pa);
        }
        checks.push(Check::new(
            format!("{device}, metering device shut: lowest suction pressure in half an hour"),
            "psig",
            1,
            Published::AtLeast(0.0),
            psig_from_pa(lowest_pa, STANDARD_ATMOSPHERE_PA),
        ));
    }
    Topic {
        name: "protection",
        source: "Scrolls of air conditioners, from installation and service instructions: the disc inside lets the scrolls apart near 300 °F (older ones near 270 °F in the \
                 top), the motor protector trips within 90 minutes of running so and may take two hours to reset; the internal relief opens at 550 to 625 psi \
                 between the sides with R-410A, at 400 ± 50 with R-22; scrolls with a vacuum protector unload below 20 psig of suction and load again above 40, so that \
                 none pulls a deep vacuum.",
        checks,
        print: Print::Rows,
        tables: String::new(),
        charts: vec![],
    }
}
