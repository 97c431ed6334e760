//! The parts of a value one after another: of lists, maps, structs and variants.

use std::collections::BTreeSet;

use serde::de::value::{BorrowedStrDeserializer, StrDeserializer};
use serde::de::{DeserializeSeed, EnumAccess, MapAccess, SeqAccess, VariantAccess, Visitor};

use crate::at::At;
use crate::blank::blank;
use crate::context::{Shape, Stop};
use crate::hidden::shown;
use crate::mistake::Mistake;
use crate::tree::{Form, Part};

/// Makes a value; where its type does not take it, that is noted where it stands.
pub(crate) fn made<'de, S: DeserializeSeed<'de>>(seed: S, at: At<'_, '_>) -> Result<S::Value, Stop> {
    seed.deserialize(at).map_err(|stop| match stop {
        Stop::NotTaken | Stop::Missing(_) => {
            at.context.note(at.index, || Mistake::NotTaken { written: at.written() });
            Stop::Noted
        }
        other => other,
    })
}

/// The values of a list.
pub(crate) struct Items<'a, 't> {
    pub(crate) at: At<'a, 't>,
    pub(crate) parts: crate::tree::Parts<'a, 't>,
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
pub(crate) struct Values<'a, 't> {
    pub(crate) at: At<'a, 't>,
    pub(crate) parts: Vec<Part>,
    pub(crate) next: usize,
    pub(crate) length: usize,
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
pub(crate) struct Entries<'a, 't> {
    pub(crate) at: At<'a, 't>,
    pub(crate) parts: crate::tree::Parts<'a, 't>,
    pub(crate) value: Option<Part>,
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
pub(crate) struct Keys<'a, 't> {
    pub(crate) at: At<'a, 't>,
    pub(crate) of: Shape,
    pub(crate) next: usize,
    pub(crate) end: usize,
    pub(crate) given: Vec<bool>,
    pub(crate) value: Option<Part>,
    pub(crate) is_keyless_told: bool,
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
    pub(crate) fn free(&self) -> Vec<&'static str> {
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
    pub(crate) fn key(&mut self) -> Option<&'static str> {
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
pub(crate) struct Variant<'a, 't> {
    pub(crate) at: At<'a, 't>,
    pub(crate) variant: &'static str,
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
    pub(crate) fn has_brackets(&self) -> bool {
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

impl At<'_, '_> {
    /// The keys of a struct or variant, one after another.
    pub(crate) fn keyed<'de, V: Visitor<'de>>(self, of: Shape, visitor: V) -> Result<V::Value, Stop> {
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
