//! A base and differences: a system is written as what it has otherwise than another one.

use serde::{Deserialize, Deserializer};

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
