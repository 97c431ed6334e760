//! What the electrical side remembers, and what is found from it.

use serde::{Deserialize, Serialize};

use super::circuit::Contacts;
use super::fuse::Fuse;
use super::motors::{FanLoad, Supply};

/// Voltage at a motor above which it counts as energised, V.
pub(crate) const ENERGISED_V: f64 = 100.0;
/// Share of its running speed above which a rotor counts as turning.
const TURNS_FROM: f64 = 0.3;

/// Electrical state beside thermostat and contactor.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct ElectricState {
    /// The last solution, kept until something changes.
    pub solved: Option<Solved>,
    pub relay_in: bool,
    pub low_pressure_open: bool,
    /// The compressor is energised and does not turn.
    pub locked: bool,
    /// Rise of the overload's disc over the winding, K.
    pub disc_rise_k: f64,
    /// What the fan motors do.
    pub fan: FanDrive,
    pub blower: FanDrive,
    /// Electric power of the sound, warm blower at its own speed through what is in the way of the air now, W.
    pub wheel_w: f64,
    /// Windings of the fan motors over the air around them, K.
    pub fan_rise_k: f64,
    pub blower_rise_k: f64,
    pub fan_protector_open: bool,
    pub blower_protector_open: bool,
    /// The low-voltage fuse.
    pub fuse: Fuse,
    /// Charge left on capacitors, by [`Capacitor`], V.
    pub charge_v: [f64; 3],
    /// Charge of the storage capacitor of an ECM's module, V.
    pub module_charge_v: f64,
    /// Capacitors with their leads off.
    pub leads_off: [bool; 3],
    /// Motors with their leads off.
    pub motor_leads_off: [bool; 3],
    /// Electric power of the outdoor fan, W.
    pub fan_power_w: f64,
}

/// What one solution of the network says.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(crate) struct Solved {
    pub contacts: Contacts,
    /// All of them that is on or off, see [`Contacts::bits`].
    pub bits: u32,
    /// Voltages at the places that decide, V.
    pub control_v: f64,
    pub contactor_coil_v: f64,
    pub relay_coil_v: f64,
    pub compressor_v: f64,
    /// What the fan motors are supplied with; for an ECM its line voltage.
    pub fan_supply: Supply,
    pub blower_supply: Supply,
    pub capacitor_v: [f64; 3],
    /// Warmth at which the fuse would settle.
    pub fuse_settles_at: f64,
    /// The module of an ECM has line power and command, and works.
    pub ecm_runs: bool,
    pub compressor: CompressorDrive,
}

impl Solved {
    /// Whether it is the solution for these contacts. Asked for at every step, so with what was packed once.
    #[inline]
    pub(crate) fn is_for(&self, contacts: &Contacts) -> bool {
        self.bits == contacts.bits() && self.contacts.faults == contacts.faults
    }
}

/// What the compressor motor does with its voltage and capacitor.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct CompressorDrive {
    /// Torque at rest over the rated torque.
    pub start_share: f64,
    /// Largest mechanical power, W.
    pub breakdown_w: f64,
    /// Electric power over that of the sound motor at the rated load.
    pub power_share: f64,
    /// Rise of the overload's disc by the current above that of the sound motor, K.
    pub run_rise_k: f64,
    /// The same with the rotor locked, K, and the power then, W.
    pub locked_rise_k: f64,
    pub locked_w: f64,
}

/// What a fan motor does with its voltage, its capacitor, its load and its temperature.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct FanDrive {
    /// Speed at which it settles, over that of the sound, warm motor under the same load at 240 V; 0 when it does not turn.
    pub speed: f64,
    /// Slip there.
    pub slip: f64,
    /// Electric power there: turning, or humming with the rotor at rest, W.
    pub power_w: f64,
    /// Heat in windings and rotor, W.
    pub loss_w: f64,
    /// Temperature and power of the wheel for which it was found, K and W, and what that power is as a load.
    pub found_at_k: f64,
    pub found_at_w: f64,
    pub load: FanLoad,
}

/// Speeds of the rotors over their running speed.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Speeds {
    pub compressor: f64,
    pub fan: f64,
    pub blower: f64,
}

impl Speeds {
    pub(crate) fn compressor_turns(&self) -> bool {
        self.compressor > TURNS_FROM
    }

    pub(crate) fn fan_turns(&self) -> bool {
        self.fan > TURNS_FROM
    }

    pub(crate) fn blower_turns(&self) -> bool {
        self.blower > TURNS_FROM
    }
}
