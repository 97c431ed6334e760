//! What a shadow at the truth is off by at a meter is what the meter may be off by.

use std::collections::BTreeMap;

use diagnosis::{Residual, residuals};
use trials::{Drawn, Go, drawn, fixed_routine};
use visit::{Measured, instrument};

/// Visits of development, enough for a tenth of a standard deviation.
const NUMBERS: std::ops::Range<u64> = 12_000..12_040;

fn class(one: &Residual) -> Option<&'static str> {
    // A meter without a sign shows nothing in place of less.
    if one.value.abs() < 3.0 * instrument(one.quantity).accuracy_at(0.0) {
        return None;
    }
    match one.quantity {
        Measured::Voltage(..) => Some("volts"),
        Measured::Resistance(from, _) if from.is_of_a_winding() => Some("ohms of a winding"),
        Measured::Resistance(..) => Some("ohms"),
        Measured::Current(_) => Some("amperes"),
        Measured::Capacitance(..) => Some("microfarads"),
        _ => None,
    }
}

/// Neither more nor less than expected, quantity by quantity, and no reading of a true plant is out of the question.
#[test]
fn meters_are_off_by_what_their_class_says() {
    let mut all: BTreeMap<&'static str, Vec<f64>> = BTreeMap::new();
    for number in NUMBERS {
        let drawn = drawn(number).expect("finite");
        let amounts = drawn.amounts_at(drawn.visit.plant().circuit_kg());
        let Drawn { mut visit, truth, .. } = drawn;
        fixed_routine(&mut visit, &mut |_| Ok(Go::On)).expect("finite");
        for one in residuals(&visit, &truth, &amounts).expect("finite") {
            if let Some(class) = class(&one) {
                assert!(one.z.abs() < 6.0, "{number} {truth:?}: {one:?}");
                all.entry(class).or_default().push(one.z);
            }
        }
    }
    assert_eq!(all.len(), 5);
    for (class, z) in all {
        let rms = (z.iter().map(|z| z * z).sum::<f64>() / z.len() as f64).sqrt();
        println!("{class}: z {rms:.2} r.m.s. of {}", z.len());
        // How warm the winding of a plant that cycled is nobody knows: taken wider than most are off.
        let least = if class == "ohms of a winding" { 0.6 } else { 0.8 };
        assert!((least..1.2).contains(&rms), "{class}: z {rms:.2} r.m.s. of {}", z.len());
    }
}
