//! Motors: single-phase motors with a run capacitor by the theory of two revolving fields.

use serde::{Deserialize, Serialize};

use super::network::{Complex, SUPPLY_RAD_S};

/// A permanent split capacitor motor: run (main) winding across the line, start winding behind the run capacitor.
///
/// Equivalent circuit of the two-winding motor by revolving fields (textbook form, e.g. Veinott; from memory): rotor
/// quantities referred to the run winding.
#[derive(Clone, Debug, PartialEq)]
pub struct SplitPhaseMotor {
    /// Number of poles.
    pub poles: f64,
    /// Resistance of the run winding, ohm.
    pub main_ohm: f64,
    /// Leakage reactance of the run winding at 60 Hz, ohm.
    pub main_leakage_ohm: f64,
    /// Leakage reactance of the rotor at 60 Hz, ohm.
    pub rotor_leakage_ohm: f64,
    /// Resistance of the rotor, ohm.
    pub rotor_ohm: f64,
    /// Magnetising reactance at 60 Hz, ohm.
    pub magnetising_ohm: f64,
    /// Effective turns of the start winding over those of the run winding.
    pub turns_ratio: f64,
    /// Resistance of the start winding, ohm.
    pub start_ohm: f64,
    /// Leakage reactance of the start winding at 60 Hz, ohm.
    pub start_leakage_ohm: f64,
    /// Run capacitor as on its label, F.
    pub capacitor_f: f64,
    /// Slip at the rated load.
    pub rated_slip: f64,
    /// Rise of the windings over the air at the rated load, K. Resistances are those at 25 °C; 0 for a motor whose
    /// resistances are those of the running motor.
    pub rated_rise_k: f64,
    /// Torque that it takes to break away from rest, over the rated torque.
    pub breakaway_share: f64,
}

/// Windings of a fan motor as a heat store, with the protector that opens on its temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Protector {
    /// Heat capacity, J/K.
    pub capacity_j_k: f64,
    /// Heat transfer to the air at rest, W/K.
    pub still_w_k: f64,
    /// What the moving air adds at full speed, W/K.
    pub moving_w_k: f64,
    /// Rise over the air at which it opens, K.
    pub opens_rise_k: f64,
    /// Rise at which it closes again, K.
    pub closes_rise_k: f64,
}

impl Protector {
    /// Heat that the windings lose, W.
    pub(crate) fn lost_w(&self, rise_k: f64, speed: f64) -> f64 {
        rise_k * (self.still_w_k + self.moving_w_k * speed)
    }

    /// That of a motor of `share` times the power.
    pub(crate) const fn scaled(self, share: f64) -> Protector {
        Protector {
            capacity_j_k: self.capacity_j_k * share,
            still_w_k: self.still_w_k * share,
            moving_w_k: self.moving_w_k * share,
            ..self
        }
    }
}

/// What a motor is supplied with.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct Supply {
    pub volt: f64,
    pub capacitance_f: f64,
}

/// What a motor does at one slip.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct MotorPoint {
    pub main_a: Complex,
    pub start_a: Complex,
    pub torque_nm: f64,
    pub power_w: f64,
}

impl MotorPoint {
    pub(crate) fn line_a(&self) -> f64 {
        (self.main_a + self.start_a).magnitude()
    }
}

/// What a fan asks of its motor: torque with the square of speed, as the laws of fans say for passages that stay. (The part of a
/// filter's drop that goes with the flow itself makes it 1 % at half speed.)
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct FanLoad {
    /// Torque at the reference speed, N·m.
    pub reference_nm: f64,
    /// Slip at the reference speed.
    pub reference_slip: f64,
    /// Torque that it takes to break away from rest, N·m.
    pub breakaway_nm: f64,
}

impl FanLoad {
    /// Speed at a slip over the reference speed.
    pub(crate) fn speed(&self, slip: f64) -> f64 {
        (1.0 - slip) / (1.0 - self.reference_slip)
    }

    fn torque_nm(&self, slip: f64) -> f64 {
        let speed = self.speed(slip);
        self.reference_nm * speed * speed
    }
}

/// Slip below which the machine counts as at synchronous speed.
const SLIP_MIN: f64 = 1.0e-4;

impl SplitPhaseMotor {
    /// The same design for `share` times the power, with another capacitor: the turns of the start winding follow
    /// the capacitor, so that torque and efficiency stay.
    pub(crate) fn scaled(&self, share: f64, capacitor_f: f64) -> SplitPhaseMotor {
        let turns_square = self.capacitor_f * share / capacitor_f;
        let start = turns_square / share;
        SplitPhaseMotor {
            main_ohm: self.main_ohm / share,
            main_leakage_ohm: self.main_leakage_ohm / share,
            rotor_leakage_ohm: self.rotor_leakage_ohm / share,
            rotor_ohm: self.rotor_ohm / share,
            magnetising_ohm: self.magnetising_ohm / share,
            turns_ratio: self.turns_ratio * turns_square.sqrt(),
            start_ohm: self.start_ohm * start,
            start_leakage_ohm: self.start_leakage_ohm * start,
            capacitor_f,
            ..*self
        }
    }

    /// The motor with `turns` times the turns in the run winding: a lower speed tap puts winding in series.
    pub(crate) fn on_tap(&self, turns: f64) -> SplitPhaseMotor {
        let square = turns * turns;
        SplitPhaseMotor {
            main_ohm: self.main_ohm * square,
            main_leakage_ohm: self.main_leakage_ohm * square,
            rotor_leakage_ohm: self.rotor_leakage_ohm * square,
            rotor_ohm: self.rotor_ohm * square,
            magnetising_ohm: self.magnetising_ohm * square,
            turns_ratio: self.turns_ratio / turns,
            ..*self
        }
    }

    fn synchronous_rad_s(&self) -> f64 {
        2.0 * SUPPLY_RAD_S / self.poles
    }

    /// Forward and backward impedance of the rotor's field at a slip, ohm.
    fn fields(&self, slip: f64) -> (Complex, Complex) {
        let magnetising = Complex::new(0.0, self.magnetising_ohm);
        let field = |resistance: f64| {
            let rotor = Complex::new(resistance, self.rotor_leakage_ohm);
            (magnetising * rotor / (magnetising + rotor)).scale(0.5)
        };
        let slip = slip.clamp(SLIP_MIN, 2.0 - SLIP_MIN);
        (field(self.rotor_ohm / slip), field(self.rotor_ohm / (2.0 - slip)))
    }

    /// Impedances of run and start winding at a slip, ohm: `[[run, -coupling], [coupling, start]]`.
    pub(crate) fn impedances(&self, slip: f64) -> [[Complex; 2]; 2] {
        let (forward, backward) = self.fields(slip);
        let a = self.turns_ratio;
        let sum = forward + backward;
        let coupling = (forward - backward).scale(a).turned();
        [
            [Complex::new(self.main_ohm, self.main_leakage_ohm) + sum, -coupling],
            [coupling, Complex::new(self.start_ohm, self.start_leakage_ohm) + sum.scale(a * a)],
        ]
    }

    /// Currents, torque and power at a slip.
    pub(crate) fn point(&self, supply: Supply, slip: f64) -> MotorPoint {
        let [[run, minus_coupling], [coupling, start]] = self.impedances(slip);
        let volt = Complex::real(supply.volt);
        let (main_a, start_a) = if supply.capacitance_f > 1.0e-12 {
            let start = start + Complex::new(0.0, -1.0 / (SUPPLY_RAD_S * supply.capacitance_f));
            let determinant = run * start - minus_coupling * coupling;
            (volt * (start - minus_coupling) / determinant, volt * (run - coupling) / determinant)
        } else {
            (volt / run, Complex::ZERO)
        };
        let (forward, backward) = self.fields(slip);
        let a = self.turns_ratio;
        let torque = (main_a.square() + a * a * start_a.square()) * (forward.re - backward.re)
            + 2.0 * a * (start_a * main_a.conjugate()).im * (forward.re + backward.re);
        MotorPoint {
            main_a,
            start_a,
            torque_nm: torque / self.synchronous_rad_s(),
            power_w: (volt * (main_a + start_a).conjugate()).re,
        }
    }

    /// The motor with its windings and its rotor `rise_k` warmer than 25 °C.
    ///
    /// Resistance over that at 25 °C: (235 + t)/(235 + 25) of copper, t in °C (IEC 60034-1, from memory); the aluminium of
    /// the rotor (225) within 1 % of it, and as warm as the windings.
    pub(crate) fn warmed(&self, rise_k: f64) -> SplitPhaseMotor {
        let share = (260.0 + rise_k) / 260.0;
        SplitPhaseMotor {
            main_ohm: self.main_ohm * share,
            rotor_ohm: self.rotor_ohm * share,
            start_ohm: self.start_ohm * share,
            ..*self
        }
    }

    /// What it is rated with: 240 V and a sound capacitor.
    pub(crate) fn rated_supply(&self) -> Supply {
        Supply { volt: 240.0, capacitance_f: self.capacitor_f }
    }

    /// The rated point: that of the sound, warm motor at 240 V and its rated slip.
    pub(crate) fn rated(&self) -> MotorPoint {
        self.warmed(self.rated_rise_k).point(self.rated_supply(), self.rated_slip)
    }

    /// Slip at which the motor settles under a fan, coming from `from_slip`; 1 when it does not break away.
    pub(crate) fn fan_slip(&self, supply: Supply, load: FanLoad, from_slip: f64) -> f64 {
        // From rest the way is searched in small steps, so that no hollow of the torque curve is jumped; a motor that
        // runs moves by little.
        const WIDEST: f64 = 1.0 / 256.0;
        let excess = |slip: f64| self.point(supply, slip).torque_nm - load.torque_nm(slip);
        let at_rest = from_slip > 0.99;
        if at_rest && self.point(supply, 1.0).torque_nm < load.breakaway_nm {
            return 1.0;
        }
        let mut a = (from_slip, excess(from_slip));
        let faster = at_rest || a.1 > 0.0;
        let mut stride = if at_rest { WIDEST } else { 1.0e-5 };
        let b = loop {
            let slip = if faster { a.0 - stride } else { a.0 + stride };
            if slip <= SLIP_MIN || slip >= 1.0 {
                return slip.clamp(SLIP_MIN, 1.0);
            }
            let here = (slip, excess(slip));
            if (here.1 > 0.0) != faster {
                break here;
            }
            a = here;
            stride = (4.0 * stride).min(WIDEST);
        };
        false_position(a, b, 1.0e-11 * load.reference_nm, excess)
    }

    /// Slip, short of breakdown, at which it takes `power_w` at its rated supply; next to none if it takes more than that
    /// without a load.
    pub(crate) fn slip_for_input(&self, power_w: f64) -> f64 {
        let supply = self.rated_supply();
        let excess = |slip: f64| self.point(supply, slip).power_w - power_w;
        let (mut a, mut b) = ((SLIP_MIN, excess(SLIP_MIN)), (self.rated_slip, excess(self.rated_slip)));
        if a.1 >= 0.0 {
            return SLIP_MIN;
        }
        while b.1 < 0.0 && b.0 < 4.0 * self.rated_slip {
            a = b;
            let slip = b.0 + 0.1 * self.rated_slip;
            b = (slip, excess(slip));
        }
        false_position(a, b, 1.0e-11 * power_w, excess)
    }

    /// Largest mechanical power and the slip at which it is given, W.
    pub(crate) fn breakdown(&self, supply: Supply) -> (f64, f64) {
        let mut best = (0.0, 1.0);
        for step in 1..=80 {
            let slip = f64::from(step) / 160.0;
            let power = self.point(supply, slip).torque_nm * self.synchronous_rad_s() * (1.0 - slip);
            if power > best.0 {
                best = (power, slip);
            }
        }
        best
    }

    /// Slip on the stable side at which a quantity that grows with slip reaches `wanted`.
    fn stable_slip(&self, supply: Supply, wanted: f64, quantity: impl Fn(&MotorPoint, f64) -> f64) -> f64 {
        let (mut a, mut b) = (SLIP_MIN, self.breakdown(supply).1);
        for _ in 0..50 {
            let middle = 0.5 * (a + b);
            if quantity(&self.point(supply, middle), middle) < wanted { a = middle } else { b = middle }
        }
        0.5 * (a + b)
    }

    /// Slip at which the motor takes `power_w` from the line.
    pub(crate) fn slip_of_input(&self, supply: Supply, power_w: f64) -> f64 {
        self.stable_slip(supply, power_w, |p, _| p.power_w)
    }

    /// Slip at which it gives `power_w` to the shaft.
    pub(crate) fn slip_of_shaft(&self, supply: Supply, power_w: f64) -> f64 {
        self.stable_slip(supply, power_w, |p, slip| p.torque_nm * self.synchronous_rad_s() * (1.0 - slip))
    }

    /// Mechanical power at a slip, W.
    pub(crate) fn shaft_w(&self, point: &MotorPoint, slip: f64) -> f64 {
        point.torque_nm * self.synchronous_rad_s() * (1.0 - slip)
    }
}

/// Zero of `value` between `a` and `b`, given with their values of different sign: false position, with the weight of an end
/// that stays halved (Illinois).
fn false_position(
    mut a: (f64, f64),
    mut b: (f64, f64),
    close_enough: f64,
    value: impl Fn(f64) -> f64,
) -> f64 {
    for _ in 0..60 {
        if b.1 == a.1 {
            break;
        }
        let at = (a.0 * b.1 - b.0 * a.1) / (b.1 - a.1);
        let here = (at, value(at));
        if here.1.abs() < close_enough || (b.0 - a.0).abs() < 1.0e-13 {
            return at;
        }
        if (here.1 > 0.0) == (b.1 > 0.0) {
            a.1 *= 0.5;
        } else {
            a = b;
        }
        b = here;
    }
    b.0
}
