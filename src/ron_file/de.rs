//! Values out of a tree: a deserializer that notes what does not fit and goes on.
//!
//! Where a value is of another sort, what asked for it gets a blank one, and a mistake is noted. A misspelled name is read as the nearest
//! known one. That a key is missing is known only when its struct has been read to the end and can't be gone on with; then the
//! whole is read again from the tree, with that key known as one that must be there.

use std::collections::BTreeSet;

use serde::Deserializer;
use serde::de::value::{BorrowedStrDeserializer, StrDeserializer};
use serde::de::{DeserializeSeed, EnumAccess, MapAccess, SeqAccess, VariantAccess, Visitor};

use crate::at::{At, unescaped, whole_number};
use crate::blank::Blank;
use crate::context::{Context, Shape, Stop};
use crate::hidden::shown;
use crate::mistake::{Mistake, Wanted};
use crate::texts::TEXTS;
use crate::tree::{Form, Part};

/// What is wanted may be made blank without a place in the text.
pub(crate) fn blank<'a, 't>(context: &'a Context<'a, 't>) -> Blank<'a, 't> {
    Blank { context, depth: 0 }
}

impl At<'_, '_> {
    fn keyed<'de, V: Visitor<'de>>(self, of: Shape, visitor: V) -> Result<V::Value, Stop> {
        let keys = Keys {
            at: self,
            of,
            next: self.index + 1,
            end: self.tree().nodes[self.index].next as usize,
            given: vec![false; of.fields.len()],
            value: None,
            is_keyless_told: false,
        };
        self.context.learned(of, visitor.visit_map(keys))
    }
}

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

/// Makes a value; where its type does not take it, that is noted where it stands.
fn made<'de, S: DeserializeSeed<'de>>(seed: S, at: At<'_, '_>) -> Result<S::Value, Stop> {
    seed.deserialize(at).map_err(|stop| match stop {
        Stop::NotTaken | Stop::Missing(_) => {
            at.context.note(at.index, || Mistake::NotTaken { written: at.written() });
            Stop::Noted
        }
        other => other,
    })
}

/// The values of a list.
struct Items<'a, 't> {
    at: At<'a, 't>,
    parts: crate::tree::Parts<'a, 't>,
}

impl<'de> SeqAccess<'de> for Items<'_, '_> {
    type Error = Stop;

    fn next_element_seed<S: DeserializeSeed<'de>>(&mut self, seed: S) -> Result<Option<S::Value>, Stop> {
        let Some(part) = self.parts.next() else { return Ok(None) };
        if let Some(key) = part.key {
            let written = self.at.tree().text_of(key);
            self.at.context.note(key, || Mistake::KeyTooMuch { key: shown(written) });
        }
        made(seed, self.at.part(part)).map(Some)
    }
}

/// A fixed number of values in brackets; what is missing is blank, what is too much is left out.
struct Values<'a, 't> {
    at: At<'a, 't>,
    parts: Vec<Part>,
    next: usize,
    length: usize,
}

impl<'de> SeqAccess<'de> for Values<'_, '_> {
    type Error = Stop;

    fn next_element_seed<S: DeserializeSeed<'de>>(&mut self, seed: S) -> Result<Option<S::Value>, Stop> {
        if self.next == self.length {
            return Ok(None);
        }
        let part = self.parts.get(self.next).copied();
        self.next += 1;
        match part {
            Some(part) => made(seed, self.at.part(part)).map(Some),
            None => seed.deserialize(blank(self.at.context)).map(Some),
        }
    }
}

/// The entries of a map.
struct Entries<'a, 't> {
    at: At<'a, 't>,
    parts: crate::tree::Parts<'a, 't>,
    value: Option<Part>,
}

impl<'de> MapAccess<'de> for Entries<'_, '_> {
    type Error = Stop;

    fn next_key_seed<S: DeserializeSeed<'de>>(&mut self, seed: S) -> Result<Option<S::Value>, Stop> {
        for part in self.parts.by_ref() {
            let Some(key) = part.key else {
                self.at.context.note(part.value, || Mistake::NoKey);
                continue;
            };
            self.value = Some(part);
            return made(seed, At { context: self.at.context, index: key, key: self.at.key }).map(Some);
        }
        Ok(None)
    }

    fn next_value_seed<S: DeserializeSeed<'de>>(&mut self, seed: S) -> Result<S::Value, Stop> {
        match self.value.take() {
            Some(part) => made(seed, self.at.part(part)),
            None => Err(Stop::NotTaken),
        }
    }
}

/// The keys of a struct: those in the text that are known, then those that must be there and are not.
struct Keys<'a, 't> {
    at: At<'a, 't>,
    of: Shape,
    next: usize,
    end: usize,
    given: Vec<bool>,
    value: Option<Part>,
    is_keyless_told: bool,
}

impl<'a, 't> Keys<'a, 't> {
    fn next_part(&mut self) -> Option<Part> {
        let tree = self.at.tree();
        let node = (self.next < self.end).then(|| tree.nodes[self.next])?;
        let is_pair = node.is_key && (node.next as usize) < self.end;
        let part = if is_pair {
            Part { key: Some(self.next), value: node.next as usize }
        } else {
            Part { key: None, value: self.next }
        };
        self.next = tree.nodes[part.value].next as usize;
        Some(part)
    }

    /// The known keys that are not in the text.
    fn free(&self) -> Vec<&'static str> {
        let tree = self.at.tree();
        let there: BTreeSet<&str> =
            tree.parts(self.at.index).filter_map(|part| part.key).map(|key| tree.text_of(key)).collect();
        let taken = |name: &&'static str| {
            let place = self.of.fields.iter().position(|field| field == name);
            place.is_some_and(|place| self.given[place]) || there.contains(*name)
        };
        self.of.fields.iter().copied().filter(|name| !taken(name)).collect()
    }

    /// The known key that a written one means; what is not known, there twice or missing is noted.
    fn key(&mut self) -> Option<&'static str> {
        let (at, of) = (self.at, self.of);
        while let Some(part) = self.next_part() {
            let Some(key) = part.key else {
                if !self.is_keyless_told {
                    self.is_keyless_told = true;
                    at.context.note(part.value, || Mistake::NoKey);
                }
                continue;
            };
            let written = at.tree().text_of(key);
            let unknown = |nearest| {
                let known = of.fields.iter().map(|name| (*name).to_owned()).collect();
                (key, Mistake::UnknownKey { key: shown(written), inside: at.inside(), nearest, known })
            };
            let Some(name) = at.context.meant(written, of.fields, unknown, || self.free()) else { continue };
            let place = of.fields.iter().position(|field| *field == name)?;
            if self.given[place] {
                at.context.note(key, || Mistake::DoubledKey { key: shown(written) });
                continue;
            }
            self.given[place] = true;
            self.value = Some(part);
            return Some(name);
        }
        let missing = (0..of.fields.len())
            .find(|place| !self.given[*place] && at.context.is_required(of, of.fields[*place]))?;
        let key = of.fields[missing];
        self.given[missing] = true;
        self.value = None;
        // Values without keys may be those of the keys that are missing.
        if !self.is_keyless_told {
            at.context.note(at.index, || Mistake::MissingKey {
                key: key.to_owned(),
                inside: at.inside(),
                example: at.example_of(key),
            });
        }
        Some(key)
    }
}

impl<'de> MapAccess<'de> for Keys<'_, '_> {
    type Error = Stop;

    fn next_key_seed<S: DeserializeSeed<'de>>(&mut self, seed: S) -> Result<Option<S::Value>, Stop> {
        match self.key() {
            Some(name) => seed.deserialize(StrDeserializer::new(name)).map(Some),
            None => Ok(None),
        }
    }

    fn next_value_seed<S: DeserializeSeed<'de>>(&mut self, seed: S) -> Result<S::Value, Stop> {
        match self.value.take() {
            Some(part) => made(seed, self.at.part(part)),
            None => seed.deserialize(blank(self.at.context)),
        }
    }
}

/// A variant by its name of today.
struct Variant<'a, 't> {
    at: At<'a, 't>,
    variant: &'static str,
}

impl<'de> EnumAccess<'de> for Variant<'_, '_> {
    type Error = Stop;
    type Variant = Self;

    fn variant_seed<S: DeserializeSeed<'de>>(self, seed: S) -> Result<(S::Value, Self), Stop> {
        let variant = seed.deserialize(BorrowedStrDeserializer::new(self.variant))?;
        Ok((variant, self))
    }
}

impl Variant<'_, '_> {
    /// Whether it has brackets; that it lacks them is noted.
    fn has_brackets(&self) -> bool {
        let has = self.at.form() == Form::Round;
        if !has {
            self.at.context.note(self.at.index, || Mistake::NeedsValue {
                name: self.variant.to_owned(),
                example: self.at.example(),
            });
        }
        has
    }
}

impl<'de> VariantAccess<'de> for Variant<'_, '_> {
    type Error = Stop;

    fn unit_variant(self) -> Result<(), Stop> {
        if self.at.form() == Form::Round {
            self.at.context.note(self.at.index, || Mistake::NoBrackets { name: self.variant.to_owned() });
        }
        Ok(())
    }

    fn newtype_variant_seed<S: DeserializeSeed<'de>>(self, seed: S) -> Result<S::Value, Stop> {
        let part = if self.has_brackets() { self.at.unkeyed(1).first().copied() } else { None };
        match part {
            Some(part) => made(seed, self.at.part(part)),
            None => seed.deserialize(blank(self.at.context)),
        }
    }

    fn tuple_variant<V: Visitor<'de>>(self, length: usize, visitor: V) -> Result<V::Value, Stop> {
        let parts = if self.has_brackets() { self.at.unkeyed(length) } else { Vec::new() };
        visitor.visit_seq(Values { at: self.at, parts, next: 0, length })
    }

    fn struct_variant<V: Visitor<'de>>(
        self,
        fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Stop> {
        let of = Shape { name: self.variant, fields };
        if self.has_brackets() {
            self.at.keyed(of, visitor)
        } else {
            blank(self.at.context).keyed(of, visitor)
        }
    }
}
