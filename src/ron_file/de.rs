//! Values out of a tree: a deserializer that notes what does not fit and goes on.
//!
//! Where a value is of another sort, what asked for it gets a blank one, and a mistake is noted. A misspelled name is read as the nearest
//! known one. That a key is missing is known only when its struct has been read to the end and can't be gone on with; then the
//! whole is read again from the tree, with that key known as one that must be there.

use serde::Deserializer;
use serde::de::Visitor;

use crate::access::{Entries, Items, Values, Variant};
use crate::at::At;
use crate::blank::blank;
use crate::context::{Shape, Stop};
use crate::hidden::shown;
use crate::literal::{unescaped, whole_number};
use crate::mistake::{Mistake, Wanted};
use crate::texts::TEXTS;
use crate::tree::{Form, Part};

/// How whole numbers are asked for, by serde's names.
macro_rules! whole {
    ($($asked:ident => $given:ident),* $(,)?) => {
        $(fn $asked<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
            visitor.$given(self.whole())
        })*
    };
}

impl<'de> Deserializer<'de> for At<'_, '_> {
    type Error = Stop;

    whole! {
        deserialize_i8 => visit_i8,
        deserialize_i16 => visit_i16,
        deserialize_i32 => visit_i32,
        deserialize_i64 => visit_i64,
        deserialize_u8 => visit_u8,
        deserialize_u16 => visit_u16,
        deserialize_u32 => visit_u32,
        deserialize_u64 => visit_u64,
    }

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        match self.form() {
            Form::Word => match self.plain() {
                Some("true") => visitor.visit_bool(true),
                Some("false") => visitor.visit_bool(false),
                Some(word) => match (whole_number(word).map(i64::try_from), word.parse::<f64>()) {
                    (Some(Ok(number)), _) => visitor.visit_i64(number),
                    (_, Ok(_)) => visitor.visit_f64(self.number()),
                    _ => visitor.visit_str(word),
                },
                None => visitor.visit_unit(),
            },
            Form::Text | Form::RawText => self.deserialize_str(visitor),
            Form::Character => self.deserialize_char(visitor),
            Form::Square => self.deserialize_seq(visitor),
            Form::Curly => self.deserialize_map(visitor),
            Form::Round => match self.tree().parts(self.index).next() {
                None => visitor.visit_unit(),
                Some(Part { key: None, .. }) => {
                    visitor.visit_seq(Items { at: self, parts: self.tree().parts(self.index) })
                }
                Some(_) => {
                    visitor.visit_map(Entries { at: self, parts: self.tree().parts(self.index), value: None })
                }
            },
        }
    }

    fn deserialize_bool<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        match self.plain() {
            Some("true") => visitor.visit_bool(true),
            Some("false") => visitor.visit_bool(false),
            _ => {
                if !self.is_missing() {
                    self.wrong(Wanted::YesOrNo);
                }
                visitor.visit_bool(false)
            }
        }
    }

    fn deserialize_f32<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        visitor.visit_f64(self.number())
    }

    fn deserialize_f64<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        visitor.visit_f64(self.number())
    }

    fn deserialize_char<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        let written = self.tree().text_of(self.index);
        let inside = written.strip_prefix('\'').and_then(|rest| rest.strip_suffix('\''));
        let text = inside.filter(|_| self.form() == Form::Character).and_then(unescaped);
        let mut letters = text.iter().flat_map(|text| text.chars());
        match (letters.next(), letters.next()) {
            (Some(letter), None) => visitor.visit_char(letter),
            _ => {
                self.wrong(Wanted::Character);
                visitor.visit_char(' ')
            }
        }
    }

    fn deserialize_str<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        visitor.visit_string(self.text(Wanted::Text))
    }

    fn deserialize_string<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        visitor.visit_string(self.text(Wanted::Text))
    }

    fn deserialize_bytes<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        visitor.visit_byte_buf(self.text(Wanted::Text).into_bytes())
    }

    fn deserialize_byte_buf<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        self.deserialize_bytes(visitor)
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        if self.plain() == Some("None") {
            return visitor.visit_none();
        }
        if self.form() == Form::Round && self.tree().word(self.index) == "Some" {
            return match self.unkeyed(1).first() {
                Some(part) => visitor.visit_some(self.part(*part)),
                None => visitor.visit_none(),
            };
        }
        visitor.visit_some(self)
    }

    fn deserialize_unit<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        if self.form() != Form::Round || self.tree().parts(self.index).next().is_some() {
            self.wrong(Wanted::Nothing);
        }
        visitor.visit_unit()
    }

    fn deserialize_unit_struct<V: Visitor<'de>>(
        self,
        name: &'static str,
        visitor: V,
    ) -> Result<V::Value, Stop> {
        if self.plain() == Some(name) { visitor.visit_unit() } else { self.deserialize_unit(visitor) }
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(
        self,
        name: &'static str,
        visitor: V,
    ) -> Result<V::Value, Stop> {
        if name == TEXTS {
            return match self.form() {
                Form::Curly => self.deserialize_map(visitor),
                _ => visitor.visit_string(self.text(Wanted::TextOrTexts)),
            };
        }
        let word = self.tree().word(self.index);
        if self.form() == Form::Round && (word.is_empty() || word == name) {
            return match self.unkeyed(1).first() {
                Some(part) => visitor.visit_newtype_struct(self.part(*part)),
                None => visitor.visit_newtype_struct(blank(self.context)),
            };
        }
        visitor.visit_newtype_struct(self)
    }

    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        if self.form() != Form::Square {
            if !self.is_missing() {
                self.wrong(Wanted::List);
            }
            return blank(self.context).deserialize_seq(visitor);
        }
        visitor.visit_seq(Items { at: self, parts: self.tree().parts(self.index) })
    }

    fn deserialize_tuple<V: Visitor<'de>>(self, length: usize, visitor: V) -> Result<V::Value, Stop> {
        visitor.visit_seq(Values { at: self, parts: self.values(length), next: 0, length })
    }

    fn deserialize_tuple_struct<V: Visitor<'de>>(
        self,
        name: &'static str,
        length: usize,
        visitor: V,
    ) -> Result<V::Value, Stop> {
        if self.form() == Form::Round && self.tree().word(self.index) == name {
            return visitor.visit_seq(Values { at: self, parts: self.unkeyed(length), next: 0, length });
        }
        self.deserialize_tuple(length, visitor)
    }

    fn deserialize_map<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        if self.form() != Form::Curly {
            if !self.is_missing() {
                self.wrong(Wanted::Map);
            }
            return blank(self.context).deserialize_map(visitor);
        }
        visitor.visit_map(Entries { at: self, parts: self.tree().parts(self.index), value: None })
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        name: &'static str,
        fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Stop> {
        let word = self.tree().word(self.index);
        if self.form() != Form::Round || !(word.is_empty() || word == name) {
            if !self.is_missing() {
                self.wrong(Wanted::Keyed);
            }
            return blank(self.context).deserialize_struct(name, fields, visitor);
        }
        self.keyed(Shape { name, fields }, visitor)
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        name: &'static str,
        variants: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Stop> {
        let word = self.tree().word(self.index);
        let is_name = matches!(self.form(), Form::Word | Form::Round)
            && word.starts_with(|c: char| c.is_alphabetic() || c == '_');
        if !is_name {
            if !self.is_missing() {
                self.wrong(Wanted::Name);
            }
            return blank(self.context).deserialize_enum(name, variants, visitor);
        }
        let unknown = |nearest| {
            let known = variants.iter().map(|name| (*name).to_owned()).collect();
            (self.index, Mistake::UnknownName { name: shown(word), nearest, known })
        };
        match self.context.meant(word, variants, unknown, || variants.to_vec()) {
            Some(variant) => visitor.visit_enum(Variant { at: self, variant }),
            None => blank(self.context).deserialize_enum(name, variants, visitor),
        }
    }

    fn deserialize_identifier<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        match self.plain() {
            Some(word) => visitor.visit_str(word),
            None => self.deserialize_str(visitor),
        }
    }

    fn deserialize_ignored_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        visitor.visit_unit()
    }
}
