//! The switches that end a run by themselves, and how a machine runs and rests between them.

use serde::{Deserialize, Serialize};

use crate::state::Plant;

/// A device that stops a motor before it comes to harm. Each closes again by itself.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, strum::IntoStaticStr,
)]
#[strum(serialize_all = "kebab-case")]
pub enum Protection {
    /// Switch in the control circuit that opens above a pressure of the liquid line.
    HighPressureSwitch,
    /// Switch in the control circuit that opens below a pressure of the suction line.
    LowPressureSwitch,
    /// Overload in the windings of the compressor.
    WindingOverload,
    /// Thermal disc on scrolls and dome of the compressor.
    ThermalDisc,
    /// Protector in the windings of the outdoor fan.
    OutdoorFanProtector,
    /// Protector in the windings of the blower.
    BlowerProtector,
}

/// Whether the compressor stands still while a protection is open.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stops {
    /// The compressor.
    Compressor,
    /// A fan only; the compressor runs on.
    Fan,
}

impl Protection {
    /// All of them.
    pub const ALL: [Protection; 6] = [
        Protection::HighPressureSwitch,
        Protection::LowPressureSwitch,
        Protection::WindingOverload,
        Protection::ThermalDisc,
        Protection::OutdoorFanProtector,
        Protection::BlowerProtector,
    ];

    /// Its name in lists that machines read: lower case with hyphens.
    #[must_use]
    pub fn kebab(self) -> &'static str {
        self.into()
    }

    /// What it stops.
    #[must_use]
    pub fn stops(self) -> Stops {
        match self {
            Protection::HighPressureSwitch
            | Protection::LowPressureSwitch
            | Protection::WindingOverload
            | Protection::ThermalDisc => Stops::Compressor,
            Protection::OutdoorFanProtector | Protection::BlowerProtector => Stops::Fan,
        }
    }
}

impl Plant {
    /// Whether a protection is open now.
    #[must_use]
    pub fn is_open(&self, protection: Protection) -> bool {
        let control = &self.control;
        match protection {
            Protection::HighPressureSwitch => control.high_pressure_open,
            Protection::LowPressureSwitch => control.electric.low_pressure_open,
            Protection::WindingOverload => control.overload_open,
            Protection::ThermalDisc => control.thermal_disc_open,
            Protection::OutdoorFanProtector => control.electric.fan_protector_open,
            Protection::BlowerProtector => control.electric.blower_protector_open,
        }
    }
}

/// How something went on and off: from its first time on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Spells {
    /// When it first went off, s of plant time; `None`: never.
    pub first_off_s: Option<f64>,
    /// How long it then stayed off, s; `None`: it has not come back, or never went.
    pub first_off_for_s: Option<f64>,
    /// How often it went off.
    pub times: u32,
    /// Sums over whole spells since it first came back, s, and their numbers.
    on_sum_s: f64,
    on_count: u32,
    off_sum_s: f64,
    off_count: u32,
    /// When the spell of now began, s; `None` before it was first on.
    since_s: Option<f64>,
    is_off: bool,
}

/// On or off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Spell {
    On,
    Off,
}

impl Spells {
    /// Mean time on, s: of the whole spells since it first came back. `None`: it does not cycle, or not yet.
    #[must_use]
    pub fn mean_on_s(&self) -> Option<f64> {
        (self.on_count > 0).then(|| self.on_sum_s / f64::from(self.on_count))
    }

    /// Mean time off, s, of all whole spells. `None`: it does not cycle, or not yet.
    #[must_use]
    pub fn mean_off_s(&self) -> Option<f64> {
        (self.on_count > 0).then(|| self.off_sum_s / f64::from(self.off_count))
    }

    fn see(&mut self, now: Spell, time_s: f64) {
        let Some(since_s) = self.since_s else {
            if now == Spell::On {
                self.since_s = Some(time_s);
            }
            return;
        };
        match (self.is_off, now) {
            (false, Spell::Off) => {
                if self.first_off_s.is_some() {
                    self.on_sum_s += time_s - since_s;
                    self.on_count += 1;
                }
                self.first_off_s.get_or_insert(time_s);
                self.times += 1;
                (self.is_off, self.since_s) = (true, Some(time_s));
            }
            (true, Spell::On) => {
                self.off_sum_s += time_s - since_s;
                self.off_count += 1;
                self.first_off_for_s.get_or_insert(time_s - since_s);
                (self.is_off, self.since_s) = (false, Some(time_s));
            }
            _ => {}
        }
    }
}

/// How a machine that is called for all the time runs and rests.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Course {
    /// When the compressor first started, s of plant time; `None`: it never did.
    pub started_s: Option<f64>,
    /// The compressor: on while it turns.
    pub compressor: Spells,
    /// What had opened when the compressor first stopped; `None`: nothing had, or it never stopped.
    pub first_stopped_by: Option<Protection>,
    /// The protections, as in [`Protection::ALL`]: on while closed.
    protections: [Spells; Protection::ALL.len()],
    /// Absolute pressures that gauges came to at the end of the last rest, suction and liquid, Pa; `None`: no rest.
    pub resting_pa: Option<(f64, f64)>,
}

impl Course {
    /// How a protection closed and opened.
    #[must_use]
    pub fn of(&self, protection: Protection) -> &Spells {
        let at = Protection::ALL.iter().position(|one| *one == protection);
        &self.protections[at.expect("all are in the list")]
    }

    /// Every protection that opened, the first to do so first.
    pub fn acted(&self) -> impl Iterator<Item = Protection> {
        let mut acted: Vec<(f64, Protection)> = Protection::ALL
            .into_iter()
            .filter_map(|one| self.of(one).first_off_s.map(|off_s| (off_s, one)))
            .collect();
        acted.sort_by(|a, b| a.0.total_cmp(&b.0));
        acted.into_iter().map(|(_, one)| one)
    }

    /// What stops the machine: what stopped the compressor first; where nothing did, the first protection that opened.
    #[must_use]
    pub fn stopped_by(&self) -> Option<Protection> {
        self.first_stopped_by.or_else(|| self.acted().next())
    }

    /// How often protections have opened, all together.
    pub(crate) fn openings(&self) -> u32 {
        self.protections.iter().map(|spells| spells.times).sum()
    }

    /// Looks at the plant after a step.
    pub(crate) fn see(&mut self, plant: &Plant) {
        let time_s = plant.time_s();
        for (spells, protection) in self.protections.iter_mut().zip(Protection::ALL) {
            spells.see(if plant.is_open(protection) { Spell::Off } else { Spell::On }, time_s);
        }
        let runs = plant.compressor_runs();
        if runs && self.started_s.is_none() {
            // What stood before the first start was no rest.
            (self.started_s, self.resting_pa) = (Some(time_s), None);
        }
        let stops_before = self.compressor.times;
        self.compressor.see(if runs { Spell::On } else { Spell::Off }, time_s);
        if self.compressor.times == 1 && stops_before == 0 {
            // Of several that are open the last to open has done it.
            self.first_stopped_by = Protection::ALL
                .into_iter()
                .filter(|one| one.stops() == Stops::Compressor && plant.is_open(*one))
                .max_by(|a, b| self.opened_s(*a).total_cmp(&self.opened_s(*b)));
        }
        if !runs {
            let readout = plant.readout();
            self.resting_pa = Some((readout.suction_pressure_pa, readout.liquid_pressure_pa));
        }
    }

    fn opened_s(&self, protection: Protection) -> f64 {
        self.of(protection).since_s.unwrap_or_default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spells_are_counted_from_the_first_time_on() {
        let mut spells = Spells::default();
        let course =
            [(0, Spell::Off), (10, Spell::On), (70, Spell::Off), (370, Spell::On), (400, Spell::Off)];
        for (time_s, spell) in course {
            spells.see(spell, f64::from(time_s));
            spells.see(spell, f64::from(time_s) + 1.0);
        }
        assert_eq!((spells.first_off_s, spells.first_off_for_s, spells.times), (Some(70.0), Some(300.0), 2));
        assert_eq!((spells.mean_on_s(), spells.mean_off_s()), (Some(30.0), Some(300.0)));
    }
}
