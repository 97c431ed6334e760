//! A base and differences: a system is written as what it has otherwise than another one.

use serde::{Deserialize, Deserializer};

use super::{System, SystemDifference};

/// A system as what differs from another one.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Differing {
    /// Name of the other one.
    base: String,
    differs: SystemDifference,
}

/// Reads a system that is written as a difference.
///
/// # Errors
/// A key that nobody knows, a base that there is none of, a parameter that neither has: each by its name.
pub(super) fn read(text: &str, base_of: impl FnOnce(&str) -> Option<System>) -> Result<System, String> {
    let Differing { base, differs } = ron::from_str(text).map_err(|error| error.to_string())?;
    let mut system = base_of(&base).ok_or_else(|| format!("there is no system {base} before it"))?;
    system.change(differs).map_err(|Missing(name)| format!("{name} is neither in it nor in {base}"))?;
    Ok(system)
}

/// A value that can be written as its difference from another one.
pub(crate) trait Differs {
    /// What is written: nothing for what is the same.
    type Difference: Default + for<'de> Deserialize<'de>;

    /// Takes over what differs.
    ///
    /// # Errors
    /// The name of a parameter that is not given and that the base does not have either.
    fn change(&mut self, difference: Self::Difference) -> Result<(), Missing>;
}

/// A parameter that neither a difference nor its base has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Missing(pub(crate) &'static str);

/// The difference of a single value.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) enum Change<T> {
    /// It is the same.
    #[default]
    Same,
    /// It is this one.
    To(T),
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Change<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Change<T>, D::Error> {
        T::deserialize(deserializer).map(Change::To)
    }
}

/// Values that differ as a whole.
macro_rules! single {
    ($($type:ty),*) => {
        $(impl Differs for $type {
            type Difference = Change<$type>;

            fn change(&mut self, difference: Change<$type>) -> Result<(), Missing> {
                if let Change::To(value) = difference {
                    *self = value;
                }
                Ok(())
            }
        })*
    };
}
single!(f64, Option<f64>, String, super::RefrigerantName);

/// Declares a part of the equipment together with the difference of it: each parameter stands here once.
macro_rules! part {
    (
        $(#[$about:meta])*
        $part:ident ($difference:ident) {
            $($(#[$what:meta])* $name:ident: $type:ty,)*
        }
    ) => {
        $(#[$about])*
        #[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
        #[serde(deny_unknown_fields)]
        pub struct $part {
            $($(#[$what])* pub $name: $type,)*
        }

        /// What of it is otherwise than in another system.
        #[derive(Default, serde::Deserialize)]
        #[serde(default, deny_unknown_fields)]
        pub(crate) struct $difference {
            $($name: <$type as $crate::system::difference::Differs>::Difference,)*
        }

        impl $crate::system::difference::Differs for $part {
            type Difference = $difference;

            fn change(&mut self, difference: $difference) -> Result<(), $crate::system::difference::Missing> {
                $($crate::system::difference::Differs::change(&mut self.$name, difference.$name)?;)*
                Ok(())
            }
        }
    };
}

/// Declares parts of which a system has one or another: of the same one what differs is written, of another one all of it.
macro_rules! one_of {
    (
        $(#[$about:meta])*
        $part:ident ($difference:ident) {
            $($(#[$which:meta])* $variant:ident {
                $($(#[$what:meta])* $name:ident: $type:ty,)*
            },)*
        }
    ) => {
        $(#[$about])*
        #[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
        #[serde(deny_unknown_fields)]
        pub enum $part {
            $($(#[$which])* $variant {
                $($(#[$what])* $name: $type,)*
            },)*
        }

        /// What of it is otherwise than in another system.
        #[derive(Default, serde::Deserialize)]
        #[serde(deny_unknown_fields)]
        pub(crate) enum $difference {
            /// Nothing.
            #[default]
            #[serde(skip)]
            Same,
            $($variant {
                $(#[serde(default)] $name: $crate::system::difference::Change<$type>,)*
            },)*
        }

        impl $crate::system::difference::Differs for $part {
            type Difference = $difference;

            fn change(&mut self, difference: $difference) -> Result<(), $crate::system::difference::Missing> {
                match difference {
                    $difference::Same => {}
                    $($difference::$variant { $($name),* } => {
                        *self = $part::$variant {
                            $($name: match ($name, &*self) {
                                ($crate::system::difference::Change::To(value), _) => value,
                                (_, $part::$variant { $name: of_base, .. }) => of_base.clone(),
                                _ => return Err($crate::system::difference::Missing(stringify!($name))),
                            },)*
                        };
                    })*
                }
                Ok(())
            }
        }
    };
}
pub(crate) use {one_of, part};

#[cfg(test)]
mod tests {
    use super::*;

    fn base() -> System {
        System::built_in("split-3-ton-r410a-txv").expect("built in")
    }

    fn read_with(differs: &str) -> Result<System, String> {
        read(&format!("(base: \"any\", differs: ({differs}))"), |_| Some(base()))
    }

    #[test]
    fn what_is_not_written_is_that_of_the_base() {
        let read = read_with(
            "name: \"x\", condenser: (fan_power_w: 200.0), metering: Txv(bleed: 0.03), \
             controls: (low_pressure_opens_pa: Some(1.0e5)), plate: (blower_capacitor_f: None)",
        );
        let mut wanted = base();
        wanted.name = "x".to_owned();
        wanted.condenser.fan_power_w = 200.0;
        wanted.controls.low_pressure_opens_pa = Some(1.0e5);
        wanted.plate.blower_capacitor_f = None;
        if let super::super::Metering::Txv { bleed, .. } = &mut wanted.metering {
            *bleed = 0.03;
        }
        assert_eq!(read, Ok(wanted));
    }

    #[test]
    fn what_is_wrong_is_named() {
        let error = |differs: &str| read_with(differs).expect_err(differs);
        for (differs, name) in [
            ("condenser: (fan_powr_w: 200.0)", "fan_powr_w"),
            ("condensr: (fan_power_w: 200.0)", "condensr"),
            ("metering: Txv(bled: 0.03)", "bled"),
            ("metering: Orifice(bore_m: 1.0e-3)", "length_m"),
            ("metering: Capillary(bore_m: 1.0e-3)", "Capillary"),
        ] {
            assert!(error(differs).contains(name), "{}", error(differs));
        }
        let without_base = read("(differs: (name: \"x\"))", |_| Some(base())).expect_err("no base");
        assert!(without_base.contains("base"), "{without_base}");
        let unknown = read("(base: \"y\", differs: ())", |_| None).expect_err("no such base");
        assert!(unknown.contains("system y"), "{unknown}");
    }
}
