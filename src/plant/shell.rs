//! The compressor's shell as one law: gas past the motor into the scrolls, and past scrolls and dome out into the discharge line.

use media::refrigerant::{Isobar, Refrigerant};

use crate::compressor::{Compression, InternalLosses, Stream, bypass_share, compress, dries, heat_to_body_w};
use crate::system::Compressor;
use crate::tangent::{Bounds, OF_STEP, Stretch, Tangent};

/// How far from where the law was worked out its arguments may be: suction pressure, Pa, enthalpy, J/kg, and flow, kg/s, of the gas
/// that comes in, discharge pressure, Pa, temperatures of motor and dome, K, worn share and, where the dome is not clear of it, the dew
/// point at the discharge, K. Flow may be off by
/// 1e-7 kg/s, power by 20 mW, enthalpies by 0.5 J/kg, temperatures by 5e-4 K. The last result is none: numbers are taken in twos.
pub(crate) const SHELL: Bounds<8, 12> = Bounds {
    near: [1500.0, 100.0, 5.0e-5, 3000.0, 0.3, 0.3, 3.0e-4, 0.1],
    fine: [0.5, 1.0e-6, 1.0e-7, 0.5, 2.0e-2, 2.0e-2, 2.0e-2, 5.0e-4, 2.0e-2, 0.5, 5.0e-4, 1.0],
    of_step: OF_STEP,
};

/// The law by these arguments, at a speed and a share of other gas in the suction pressure.
pub(crate) type ShellTangent = Tangent<8, 12, 2>;

/// What does not change from step to step.
#[derive(Clone, Copy)]
pub(crate) struct Shell<'a> {
    pub motor: &'a Compressor,
    pub fluid: &'static Refrigerant,
    /// Dew point at the discharge, K.
    pub dew_k: f64,
    pub speed: f64,
    /// What other gas adds to the pressure at the suction port, Pa.
    pub above_pa: f64,
}

/// Motor and scrolls at one instant.
pub(crate) struct Bodies {
    pub motor_k: f64,
    pub dome_k: f64,
    /// Share of the intake that slips back through worn scrolls.
    pub worn_share: f64,
}

/// What the compressor makes of the gas in its shell.
#[derive(Clone, Copy)]
pub(crate) struct Squeezed {
    /// At the inlet of the scrolls, past the motor, J/kg, and its quality.
    pub inlet_j_kg: f64,
    pub inlet_quality: f64,
    pub compression: Compression,
    pub port: Port,
}

/// Gas on its way past scrolls and dome, which stand between the port and the discharge line: what a sudden hot gas warms first. It
/// is at the total pressure there, with what does not condense in it.
#[derive(Clone, Copy)]
pub(crate) struct Port {
    /// At the port, K.
    pub hot_k: f64,
    pub to_dome_w: f64,
    /// In the discharge line, J/kg and K.
    pub line_j_kg: f64,
    pub line_k: f64,
}

impl Port {
    /// `at_dome_j_kg` is the enthalpy of gas as warm as the dome.
    fn of(
        motor: &Compressor,
        at_discharge: &Isobar<'_>,
        compression: &Compression,
        (dome_k, at_dome_j_kg): (f64, f64),
    ) -> Port {
        let (flow_kg_s, port_j_kg) = (compression.flow_kg_s, compression.discharge_enthalpy_j_kg);
        if flow_kg_s <= 0.0 {
            // Scrolls that turn in a vacuum move nothing: what stands at the port is as warm as the dome.
            return Port { hot_k: dome_k, to_dome_w: 0.0, line_j_kg: port_j_kg, line_k: dome_k };
        }
        let hot_k = at_discharge.temperature_k(port_j_kg);
        let gas = Stream { flow_kg_s, temperature_k: hot_k, enthalpy_j_kg: port_j_kg };
        let to_dome_w = heat_to_body_w(&gas, dome_k, at_dome_j_kg, motor.gas_to_dome_w_k);
        let line_j_kg = port_j_kg - to_dome_w / flow_kg_s;
        Port { hot_k, to_dome_w, line_j_kg, line_k: at_discharge.temperature_k(line_j_kg) }
    }
}

impl Shell<'_> {
    /// The compression of gas of an enthalpy at the inlet of the scrolls, J/kg, between the states at suction and discharge.
    pub(crate) fn squeeze(
        &self,
        at_suction: &Isobar<'_>,
        inlet_j_kg: f64,
        at_discharge: &Isobar<'_>,
        bodies: &Bodies,
    ) -> (Squeezed, Stretch) {
        let Shell { motor, fluid, dew_k, speed, above_pa } = *self;
        let inlet = at_suction.at_h(inlet_j_kg);
        let Bodies { motor_k, dome_k, worn_share } = *bodies;
        if speed <= 0.0 {
            return (Squeezed::still(inlet_j_kg, inlet.quality, dome_k), None);
        }
        let discharge_pa = at_discharge.pressure_pa();
        let at_dome = at_discharge.at_t_vapour(dome_k);
        let inside = InternalLosses {
            worn_share,
            leak: if dome_k < dew_k { fluid.at_pt_vapour(discharge_pa, dew_k) } else { at_dome },
            leak_dry: dries(dome_k, dew_k),
            bypass: bypass_share(motor, discharge_pa - at_suction.pressure_pa() - above_pa),
            shell_k: motor_k,
        };
        let compression = compress(motor, fluid, at_suction, &inlet, discharge_pa, speed, inside);
        let port = Port::of(motor, at_discharge, &compression, (dome_k, at_dome.enthalpy_j_kg));
        let stretch = u8::from(port.to_dome_w > 0.0)
            + 2 * u8::from(port.to_dome_w < 0.0)
            + 4 * u8::from(inlet.quality < 1.0)
            + 8 * u8::from(inside.leak_dry < 1.0)
            + 16 * u8::from(inside.leak_dry > 0.0)
            + 32 * u8::from(inside.bypass > 0.0);
        (Squeezed { inlet_j_kg, inlet_quality: inlet.quality, compression, port }, Some(stretch))
    }
}

impl Squeezed {
    /// Gas at scrolls that stand.
    pub(crate) fn still(inlet_j_kg: f64, inlet_quality: f64, dome_k: f64) -> Squeezed {
        let compression = Compression { discharge_enthalpy_j_kg: inlet_j_kg, ..Compression::default() };
        let port = Port { hot_k: dome_k, to_dome_w: 0.0, line_j_kg: inlet_j_kg, line_k: dome_k };
        Squeezed { inlet_j_kg, inlet_quality, compression, port }
    }

    /// The same with no more flow than this, kg/s.
    pub(crate) fn throttled(
        mut self,
        motor: &Compressor,
        at_discharge: &Isobar<'_>,
        dome_k: f64,
        most_kg_s: f64,
    ) -> Squeezed {
        let share = most_kg_s / self.compression.flow_kg_s;
        self.compression.flow_kg_s = most_kg_s;
        self.compression.power_w *= share;
        self.compression.motor_heat_w *= share;
        self.compression.left_in_scrolls_w *= share;
        let at_dome_j_kg = at_discharge.vapour_enthalpy_j_kg(dome_k);
        self.port = Port::of(motor, at_discharge, &self.compression, (dome_k, at_dome_j_kg));
        self
    }

    pub(crate) fn to_numbers(self) -> [f64; 12] {
        let (c, port) = (self.compression, self.port);
        [
            self.inlet_j_kg,
            self.inlet_quality,
            c.flow_kg_s,
            c.discharge_enthalpy_j_kg,
            c.power_w,
            c.motor_heat_w,
            c.left_in_scrolls_w,
            port.hot_k,
            port.to_dome_w,
            port.line_j_kg,
            port.line_k,
            0.0,
        ]
    }

    pub(crate) fn from_numbers(numbers: &[f64; 12]) -> Squeezed {
        let [
            inlet_j_kg,
            inlet_quality,
            flow_kg_s,
            discharge_enthalpy_j_kg,
            power_w,
            motor_heat_w,
            left_in_scrolls_w,
            hot_k,
            to_dome_w,
            line_j_kg,
            line_k,
            _,
        ] = *numbers;
        let compression =
            Compression { flow_kg_s, discharge_enthalpy_j_kg, power_w, motor_heat_w, left_in_scrolls_w };
        Squeezed {
            inlet_j_kg,
            inlet_quality,
            compression,
            port: Port { hot_k, to_dome_w, line_j_kg, line_k },
        }
    }
}
