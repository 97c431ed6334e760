//! A fact becomes words: a serializer that finds the message of whatever it is given.
//!
//! The message of a variant is named after its type and itself: `move-recover` for `Move::Recover`. What a variant holds is filled in:
//!
//! * a struct variant's fields under their names, quantities in the reader's units (see [`crate::quantity`]),
//! * the value of a newtype variant under the name of its type, or `value` if it is a number,
//! * the values of a tuple variant as `first`, `second` and `third`,
//! * a list under its name ("1, 2 and 3"), and as `NAME-any` ("1, 2 or 3"), `NAME-each` ("1; 2; 3", for elements that have an "and"
//!   of their own) and `NAME-count`.
//!
//! Beside each value that is itself a variant, its name is filled in as `NAME-id`, to choose by. If there is a message for the very value that a
//! newtype variant holds (`move-read-pipe-sensing-bulb`), that one goes first; if there is none for the variant at all, the words are those of what
//! it holds.

use std::fmt;

use fluent_bundle::{FluentArgs, FluentValue};
use serde::Serialize;
use serde::ser::{self, Impossible};

use crate::Words;
use crate::key::kebab;
use crate::notebook::first_upper;
use crate::quantity::{Kind, asked_for, plain};

/// What a value is in words.
#[derive(Clone, Debug, Default)]
pub(crate) struct Told {
    pub text: String,
    /// Name of the variant, to choose by; "none" for what is not there.
    pub id: Option<String>,
    /// The value, if it is a number.
    pub number: Option<f64>,
    /// The elements of a list.
    several: Option<Vec<String>>,
    /// Name of the type, in the form of a key.
    type_key: String,
    /// What a struct or a variant holds, by name.
    fields: Vec<(String, Told)>,
}

impl Told {
    fn of_text(text: impl Into<String>) -> Told {
        Told { text: text.into(), ..Told::default() }
    }

    fn of_number(number: f64) -> Told {
        Told { text: plain(number), number: Some(number), ..Told::default() }
    }
}

/// Why something has no words: it is of a form that facts don't have.
#[derive(Debug)]
pub(crate) struct Unsayable(String);

impl fmt::Display for Unsayable {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0)
    }
}

impl std::error::Error for Unsayable {}

impl ser::Error for Unsayable {
    fn custom<T: fmt::Display>(message: T) -> Self {
        Unsayable(message.to_string())
    }
}

impl Words {
    /// A fact in words: a sentence, a label or a clause as its message has it. What has no message shows its key.
    pub fn say<F: ?Sized + Serialize>(&self, fact: &F) -> String {
        match fact.serialize(Teller { words: self }) {
            Ok(told) => told.text,
            Err(unsayable) => unsayable.to_string(),
        }
    }

    /// A fact as a heading or a line of its own begins: with a capital letter.
    pub fn heading<F: ?Sized + Serialize>(&self, fact: &F) -> String {
        first_upper(&self.say(fact))
    }
}

/// Finds the words of one value.
#[derive(Clone, Copy)]
pub(crate) struct Teller<'a> {
    pub words: &'a Words,
}

impl Teller<'_> {
    /// The words of a field: a number is a quantity by the field's name.
    fn field<T: ?Sized + Serialize>(self, name: &'static str, value: &T) -> Result<Told, Unsayable> {
        let mut told = value.serialize(self)?;
        if let (Some(number), Some(kind)) = (told.number, Kind::of_field(name)) {
            told.text = self.words.quantity(kind, number);
        }
        Ok(told)
    }

    fn message(self, key: &str, fields: &[(String, Told)]) -> Option<String> {
        if !self.words.locale().has(key) {
            return None;
        }
        let mut filled_in = FluentArgs::new();
        for (name, told) in fields {
            if let Some(id) = &told.id {
                filled_in.set(format!("{name}-id"), id.clone());
            }
            if let Some(texts) = &told.several {
                filled_in.set(format!("{name}-count"), FluentValue::from(texts.len()));
                filled_in.set(format!("{name}-any"), self.words.any_of(texts));
                filled_in.set(format!("{name}-each"), texts.join("; "));
            }
            match told.number {
                // A bare count chooses its plural; a quantity is text already.
                Some(count) if count.fract() == 0.0 && told.text == plain(count) => {
                    filled_in.set(name.clone(), FluentValue::from(count));
                }
                _ => filled_in.set(name.clone(), told.text.clone()),
            }
        }
        self.words.locale().message(key, &filled_in)
    }

    /// A variant with what it holds.
    fn variant(self, type_name: &str, variant: &str, fields: Vec<(String, Told)>) -> Told {
        let (type_key, id) = (kebab(type_name), kebab(variant));
        let key = format!("{type_key}-{id}");
        let text = self.message(&key, &fields).unwrap_or(key);
        Told { text, id: Some(id), type_key, fields, ..Told::default() }
    }
}

/// What a held value is filled in as.
fn name_of(held: &Told) -> String {
    if held.type_key.is_empty() { "value".to_owned() } else { held.type_key.clone() }
}

impl<'a> ser::Serializer for Teller<'a> {
    type Ok = Told;
    type Error = Unsayable;
    type SerializeSeq = Fields<'a>;
    type SerializeTuple = Fields<'a>;
    type SerializeTupleStruct = Fields<'a>;
    type SerializeTupleVariant = Fields<'a>;
    type SerializeMap = Impossible<Told, Unsayable>;
    type SerializeStruct = Fields<'a>;
    type SerializeStructVariant = Fields<'a>;

    fn serialize_bool(self, value: bool) -> Result<Told, Unsayable> {
        let id = if value { "yes" } else { "no" };
        Ok(Told { id: Some(id.to_owned()), ..Told::of_text(id) })
    }

    fn serialize_i8(self, value: i8) -> Result<Told, Unsayable> {
        Ok(Told::of_number(f64::from(value)))
    }

    fn serialize_i16(self, value: i16) -> Result<Told, Unsayable> {
        Ok(Told::of_number(f64::from(value)))
    }

    fn serialize_i32(self, value: i32) -> Result<Told, Unsayable> {
        Ok(Told::of_number(f64::from(value)))
    }

    fn serialize_i64(self, value: i64) -> Result<Told, Unsayable> {
        Ok(Told::of_number(value as f64))
    }

    fn serialize_u8(self, value: u8) -> Result<Told, Unsayable> {
        Ok(Told::of_number(f64::from(value)))
    }

    fn serialize_u16(self, value: u16) -> Result<Told, Unsayable> {
        Ok(Told::of_number(f64::from(value)))
    }

    fn serialize_u32(self, value: u32) -> Result<Told, Unsayable> {
        Ok(Told::of_number(f64::from(value)))
    }

    fn serialize_u64(self, value: u64) -> Result<Told, Unsayable> {
        Ok(Told::of_number(value as f64))
    }

    fn serialize_f32(self, value: f32) -> Result<Told, Unsayable> {
        Ok(Told::of_number(f64::from(value)))
    }

    fn serialize_f64(self, value: f64) -> Result<Told, Unsayable> {
        Ok(Told::of_number(value))
    }

    fn serialize_char(self, value: char) -> Result<Told, Unsayable> {
        Ok(Told::of_text(value))
    }

    fn serialize_str(self, value: &str) -> Result<Told, Unsayable> {
        Ok(Told::of_text(value))
    }

    fn serialize_bytes(self, _: &[u8]) -> Result<Told, Unsayable> {
        Err(ser::Error::custom("bytes have no words"))
    }

    fn serialize_none(self) -> Result<Told, Unsayable> {
        Ok(Told { id: Some("none".to_owned()), ..Told::default() })
    }

    fn serialize_some<T: ?Sized + Serialize>(self, value: &T) -> Result<Told, Unsayable> {
        value.serialize(self)
    }

    fn serialize_unit(self) -> Result<Told, Unsayable> {
        self.serialize_none()
    }

    fn serialize_unit_struct(self, name: &'static str) -> Result<Told, Unsayable> {
        Ok(Told::of_text(self.message(&kebab(name), &[]).unwrap_or_else(|| kebab(name))))
    }

    fn serialize_unit_variant(
        self,
        name: &'static str,
        _: u32,
        variant: &'static str,
    ) -> Result<Told, Unsayable> {
        Ok(self.variant(name, variant, Vec::new()))
    }

    fn serialize_newtype_struct<T: ?Sized + Serialize>(
        self,
        _: &'static str,
        value: &T,
    ) -> Result<Told, Unsayable> {
        value.serialize(self)
    }

    fn serialize_newtype_variant<T: ?Sized + Serialize>(
        self,
        name: &'static str,
        _: u32,
        variant: &'static str,
        value: &T,
    ) -> Result<Told, Unsayable> {
        let held = value.serialize(self)?;
        let (type_key, id) = (kebab(name), kebab(variant));
        let key = format!("{type_key}-{id}");
        if let Some(text) = held.number.and_then(|number| asked_for(&key, number)) {
            return Ok(Told { text, id: Some(id), type_key, ..Told::default() });
        }
        let mut fields = held.fields.clone();
        fields.push((name_of(&held), held.clone()));
        let exact = held.id.as_ref().and_then(|id| self.message(&format!("{key}-{id}"), &fields));
        let text = exact.or_else(|| self.message(&key, &fields)).unwrap_or(if held.text.is_empty() {
            key
        } else {
            held.text
        });
        Ok(Told { text, id: Some(id), type_key, fields, ..Told::default() })
    }

    fn serialize_seq(self, _: Option<usize>) -> Result<Fields<'a>, Unsayable> {
        Ok(Fields::new(self, "", ""))
    }

    fn serialize_tuple(self, _: usize) -> Result<Fields<'a>, Unsayable> {
        Ok(Fields::new(self, "", ""))
    }

    fn serialize_tuple_struct(self, name: &'static str, _: usize) -> Result<Fields<'a>, Unsayable> {
        Ok(Fields::new(self, name, ""))
    }

    fn serialize_tuple_variant(
        self,
        name: &'static str,
        _: u32,
        variant: &'static str,
        _: usize,
    ) -> Result<Fields<'a>, Unsayable> {
        Ok(Fields::new(self, name, variant))
    }

    fn serialize_map(self, _: Option<usize>) -> Result<Impossible<Told, Unsayable>, Unsayable> {
        Err(ser::Error::custom("maps have no words"))
    }

    fn serialize_struct(self, name: &'static str, _: usize) -> Result<Fields<'a>, Unsayable> {
        Ok(Fields::new(self, name, ""))
    }

    fn serialize_struct_variant(
        self,
        name: &'static str,
        _: u32,
        variant: &'static str,
        _: usize,
    ) -> Result<Fields<'a>, Unsayable> {
        Ok(Fields::new(self, name, variant))
    }
}

/// Collects what a list, a struct or a variant holds.
pub(crate) struct Fields<'a> {
    teller: Teller<'a>,
    type_name: &'static str,
    variant: &'static str,
    fields: Vec<(String, Told)>,
}

/// Names of the values of a tuple.
const PLACES: [&str; 3] = ["first", "second", "third"];

impl<'a> Fields<'a> {
    fn new(teller: Teller<'a>, type_name: &'static str, variant: &'static str) -> Fields<'a> {
        Fields { teller, type_name, variant, fields: Vec::new() }
    }

    fn push<T: ?Sized + Serialize>(&mut self, value: &T) -> Result<(), Unsayable> {
        let name = PLACES.get(self.fields.len()).copied().unwrap_or("more");
        let told = value.serialize(self.teller)?;
        self.fields.push((name.to_owned(), told));
        Ok(())
    }

    fn put<T: ?Sized + Serialize>(&mut self, name: &'static str, value: &T) -> Result<(), Unsayable> {
        let told = self.teller.field(name, value)?;
        self.fields.push((kebab(name), told));
        Ok(())
    }

    /// A list reads "1, 2 and 3"; how the last two are joined is a message.
    fn list(self) -> Told {
        let texts: Vec<String> = self.fields.into_iter().map(|(_, told)| told.text).collect();
        Told {
            id: Some(if texts.is_empty() { "none" } else { "some" }.to_owned()),
            text: self.teller.words.list(&texts),
            several: Some(texts),
            ..Told::default()
        }
    }

    fn named(self) -> Told {
        if self.variant.is_empty() {
            let type_key = kebab(self.type_name);
            let text = self.teller.message(&type_key, &self.fields).unwrap_or_default();
            return Told { text, type_key, fields: self.fields, ..Told::default() };
        }
        self.teller.variant(self.type_name, self.variant, self.fields)
    }
}

/// How the values of a list or a tuple are taken in, by serde's name for each of them, and what they become.
macro_rules! by_place {
    ($($form:ident::$taken_in:ident => $told:ident),* $(,)?) => {
        $(impl ser::$form for Fields<'_> {
            type Ok = Told;
            type Error = Unsayable;

            fn $taken_in<T: ?Sized + Serialize>(&mut self, value: &T) -> Result<(), Unsayable> {
                self.push(value)
            }

            fn end(self) -> Result<Told, Unsayable> {
                Ok(self.$told())
            }
        })*
    };
}

by_place! {
    SerializeSeq::serialize_element => list,
    SerializeTuple::serialize_element => list,
    SerializeTupleStruct::serialize_field => named,
    SerializeTupleVariant::serialize_field => named,
}

/// How the fields of a struct or of a struct variant are taken in.
macro_rules! by_name {
    ($($form:ident),* $(,)?) => {
        $(impl ser::$form for Fields<'_> {
            type Ok = Told;
            type Error = Unsayable;

            fn serialize_field<T: ?Sized + Serialize>(
                &mut self,
                name: &'static str,
                value: &T,
            ) -> Result<(), Unsayable> {
                self.put(name, value)
            }

            fn end(self) -> Result<Told, Unsayable> {
                Ok(self.named())
            }
        })*
    };
}

by_name! { SerializeStruct, SerializeStructVariant }
