//! What is in the bag: classes of instruments with accuracy, resolution and settling (typical of their class, from memory, no source).

use serde::{Deserialize, Serialize};

use crate::limits::SCALE_TELLS_KG;

/// A kind of instrument in the bag.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum InstrumentKind {
    /// Two gauges on hoses.
    DigitalManifold,
    /// A thermometer clamped on a pipe.
    PipeClamp,
    /// Dry and wet bulb of air.
    ThermoHygrometer,
    /// Volts, ohms and microfarads.
    Multimeter,
    /// Amperes.
    ClampMeter,
    /// Under the cylinder.
    ChargingScale,
    /// Deep vacuum.
    MicronGauge,
    /// Static pressure of air.
    Manometer,
}

/// A class of instrument. Values in the SI unit of what it measures.
#[derive(Debug, PartialEq)]
pub struct Instrument {
    /// Which instrument it belongs to.
    pub kind: InstrumentKind,
    /// Accuracy: fixed part, plus or minus.
    pub accuracy: f64,
    /// Accuracy: part in proportion to the value, plus or minus.
    pub accuracy_share: f64,
    /// Smallest step of the display.
    pub resolution: f64,
    /// Time constant with which it follows what it measures, s.
    pub settling_s: f64,
}

impl Instrument {
    /// Plus or minus at a value.
    pub fn accuracy_at(&self, value: f64) -> f64 {
        self.accuracy + self.accuracy_share * value.abs()
    }

    /// One standard deviation at a value: accuracy is taken as two of them; noise and the display's step are in.
    pub fn uncertainty_at(&self, value: f64) -> f64 {
        let calibration = self.accuracy_at(value) / 2.0;
        let noise = self.noise_at(value);
        let step = self.resolution * self.resolution / 12.0;
        (calibration * calibration + noise * noise + step).sqrt()
    }

    /// One standard deviation of what stays for a visit: the calibration. No piece is off by more than its accuracy, so that it is
    /// a little less than half of that.
    pub fn calibration_uncertainty_at(&self, value: f64) -> f64 {
        CLIPPED_AT_TWO * self.accuracy_at(value) / 2.0
    }

    /// One standard deviation from reading to reading: noise, and the display's step.
    pub fn repeat_uncertainty_at(&self, value: f64) -> f64 {
        let noise = self.noise_at(value);
        (noise * noise + self.resolution * self.resolution / 12.0).sqrt()
    }

    /// One standard deviation from reading to reading, without the display's step.
    pub(super) fn noise_at(&self, value: f64) -> f64 {
        self.accuracy_at(value) / 20.0
    }

    pub(super) fn rounded(&self, value: f64) -> f64 {
        if self.resolution >= 1.0 {
            libm::round(value / self.resolution) * self.resolution
        } else {
            let steps_per_unit = libm::round(1.0 / self.resolution);
            libm::round(value * steps_per_unit) / steps_per_unit
        }
    }
}

/// Standard deviation of a normal distribution of one whose values beyond two are taken as two: the root of
/// P(|x| < 2) - 4 phi(2) + 4 P(|x| > 2) = 0.95450 - 4 * 0.053991 + 4 * 0.045500.
const CLIPPED_AT_TWO: f64 = 0.959_45;

/// Digital manifold: 1 psi and 0.2 % of the reading.
pub(crate) static GAUGE: Instrument = Instrument {
    kind: InstrumentKind::DigitalManifold,
    accuracy: 6.9e3,
    accuracy_share: 0.002,
    resolution: 500.0,
    settling_s: 1.5,
};
/// Pipe clamp thermometer: 0.5 K.
pub(crate) static CLAMP: Instrument = Instrument {
    kind: InstrumentKind::PipeClamp,
    accuracy: 0.5,
    accuracy_share: 0.0,
    resolution: 0.1,
    settling_s: 12.0,
};
/// Thermo-hygrometer, dry bulb: 0.3 K.
pub(crate) static DRY_BULB: Instrument = Instrument {
    kind: InstrumentKind::ThermoHygrometer,
    accuracy: 0.3,
    accuracy_share: 0.0,
    resolution: 0.1,
    settling_s: 15.0,
};
/// Thermo-hygrometer, wet bulb from humidity: 0.6 K.
pub(crate) static WET_BULB: Instrument = Instrument {
    kind: InstrumentKind::ThermoHygrometer,
    accuracy: 0.6,
    accuracy_share: 0.0,
    resolution: 0.1,
    settling_s: 25.0,
};
/// Multimeter, AC volts: 1 % and 2 digits.
pub(crate) static METER: Instrument = Instrument {
    kind: InstrumentKind::Multimeter,
    accuracy: 0.2,
    accuracy_share: 0.01,
    resolution: 0.1,
    settling_s: 0.5,
};
/// Multimeter, ohms: 1 % and 2 digits.
pub(crate) static OHMS: Instrument = Instrument {
    kind: InstrumentKind::Multimeter,
    accuracy: 0.2,
    accuracy_share: 0.01,
    resolution: 0.1,
    settling_s: 0.5,
};
/// Multimeter, microfarads: 2 % and 0.1 µF.
pub(crate) static MICROFARADS: Instrument = Instrument {
    kind: InstrumentKind::Multimeter,
    accuracy: 1.0e-7,
    accuracy_share: 0.02,
    resolution: 1.0e-7,
    settling_s: 1.0,
};
/// Clamp meter, AC: 2 % and 0.1 A.
pub(crate) static AMPERES: Instrument = Instrument {
    kind: InstrumentKind::ClampMeter,
    accuracy: 0.1,
    accuracy_share: 0.02,
    resolution: 0.1,
    settling_s: 0.5,
};
/// Charging scale: 5 g.
pub(crate) static SCALE: Instrument = Instrument {
    kind: InstrumentKind::ChargingScale,
    accuracy: SCALE_TELLS_KG,
    accuracy_share: 0.0,
    resolution: 0.001,
    settling_s: 1.0,
};
/// Micron gauge: 10 %.
pub(crate) static MICRON: Instrument = Instrument {
    kind: InstrumentKind::MicronGauge,
    accuracy: 0.5,
    accuracy_share: 0.1,
    resolution: 0.1,
    settling_s: 3.0,
};

/// Manometer for air, two hoses: 1 % and 1 Pa, in steps of a thousandth of an inch of water (0.25 Pa).
pub(crate) static MANOMETER: Instrument = Instrument {
    kind: InstrumentKind::Manometer,
    accuracy: 1.0,
    accuracy_share: 0.01,
    resolution: 0.25,
    settling_s: 1.0,
};
