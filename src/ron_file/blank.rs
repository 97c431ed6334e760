//! What stands in for a value that could not be read, so that the reading goes on: nothing, zero, empty, or the first variant.

use serde::Deserializer;
use serde::de::value::StrDeserializer;
use serde::de::{DeserializeSeed, EnumAccess, MapAccess, SeqAccess, VariantAccess, Visitor};

use crate::context::{Context, Shape, Stop};

/// No type of ours is deeper; one that holds itself would be filled without end.
const DEEPEST: usize = 32;

/// A blank of whatever is asked for.
#[derive(Clone, Copy)]
pub(crate) struct Blank<'a, 't> {
    pub context: &'a Context<'a, 't>,
    pub depth: usize,
}

impl Blank<'_, '_> {
    fn within(self) -> Result<Self, Stop> {
        if self.depth >= DEEPEST {
            return Err(Stop::NotTaken);
        }
        Ok(Blank { depth: self.depth + 1, ..self })
    }

    pub(crate) fn keyed<'de, V: Visitor<'de>>(self, of: Shape, visitor: V) -> Result<V::Value, Stop> {
        let blank = self.within()?;
        self.context.learned(of, visitor.visit_map(Keys { blank, of, next: 0 }))
    }
}

/// What is given for each sort that has one plain blank.
macro_rules! blanks {
    ($($asked:ident => $given:ident($value:expr)),* $(,)?) => {
        $(fn $asked<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
            visitor.$given($value)
        })*
    };
}

impl<'de> Deserializer<'de> for Blank<'_, '_> {
    type Error = Stop;

    blanks! {
        deserialize_bool => visit_bool(false),
        deserialize_i8 => visit_i8(0),
        deserialize_i16 => visit_i16(0),
        deserialize_i32 => visit_i32(0),
        deserialize_i64 => visit_i64(0),
        deserialize_u8 => visit_u8(0),
        deserialize_u16 => visit_u16(0),
        deserialize_u32 => visit_u32(0),
        deserialize_u64 => visit_u64(0),
        deserialize_f32 => visit_f32(0.0),
        deserialize_f64 => visit_f64(0.0),
        deserialize_char => visit_char(' '),
        deserialize_str => visit_str(""),
        deserialize_string => visit_str(""),
        deserialize_bytes => visit_bytes(&[]),
        deserialize_byte_buf => visit_bytes(&[]),
        deserialize_identifier => visit_str(""),
    }

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        visitor.visit_unit()
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        visitor.visit_none()
    }

    fn deserialize_unit<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        visitor.visit_unit()
    }

    fn deserialize_unit_struct<V: Visitor<'de>>(self, _: &'static str, visitor: V) -> Result<V::Value, Stop> {
        visitor.visit_unit()
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(
        self,
        name: &'static str,
        visitor: V,
    ) -> Result<V::Value, Stop> {
        if name == crate::texts::TEXTS {
            return visitor.visit_str("");
        }
        visitor.visit_newtype_struct(self.within()?)
    }

    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        visitor.visit_seq(Blanks { blank: self.within()?, left: 0 })
    }

    fn deserialize_tuple<V: Visitor<'de>>(self, length: usize, visitor: V) -> Result<V::Value, Stop> {
        visitor.visit_seq(Blanks { blank: self.within()?, left: length })
    }

    fn deserialize_tuple_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        length: usize,
        visitor: V,
    ) -> Result<V::Value, Stop> {
        self.deserialize_tuple(length, visitor)
    }

    fn deserialize_map<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        self.keyed(Shape { name: "", fields: &[] }, visitor)
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        name: &'static str,
        fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Stop> {
        self.keyed(Shape { name, fields }, visitor)
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        _: &'static str,
        variants: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Stop> {
        match variants.first() {
            Some(variant) => visitor.visit_enum(First { blank: self.within()?, variant }),
            None => Err(Stop::NotTaken),
        }
    }

    fn deserialize_ignored_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Stop> {
        visitor.visit_unit()
    }
}

/// So many blanks.
struct Blanks<'a, 't> {
    blank: Blank<'a, 't>,
    left: usize,
}

impl<'de> SeqAccess<'de> for Blanks<'_, '_> {
    type Error = Stop;

    fn next_element_seed<S: DeserializeSeed<'de>>(&mut self, seed: S) -> Result<Option<S::Value>, Stop> {
        if self.left == 0 {
            return Ok(None);
        }
        self.left -= 1;
        seed.deserialize(self.blank).map(Some)
    }
}

/// The keys that must be there, as far as that is known.
struct Keys<'a, 't> {
    blank: Blank<'a, 't>,
    of: Shape,
    next: usize,
}

impl<'de> MapAccess<'de> for Keys<'_, '_> {
    type Error = Stop;

    fn next_key_seed<S: DeserializeSeed<'de>>(&mut self, seed: S) -> Result<Option<S::Value>, Stop> {
        let fields = self.of.fields;
        while let Some(field) = fields.get(self.next) {
            self.next += 1;
            if self.blank.context.is_required(self.of, field) {
                return seed.deserialize(StrDeserializer::new(field)).map(Some);
            }
        }
        Ok(None)
    }

    fn next_value_seed<S: DeserializeSeed<'de>>(&mut self, seed: S) -> Result<S::Value, Stop> {
        seed.deserialize(self.blank)
    }
}

/// The first variant.
struct First<'a, 't> {
    blank: Blank<'a, 't>,
    variant: &'static str,
}

impl<'de> EnumAccess<'de> for First<'_, '_> {
    type Error = Stop;
    type Variant = Self;

    fn variant_seed<S: DeserializeSeed<'de>>(self, seed: S) -> Result<(S::Value, Self), Stop> {
        let variant = seed.deserialize(StrDeserializer::new(self.variant))?;
        Ok((variant, self))
    }
}

impl<'de> VariantAccess<'de> for First<'_, '_> {
    type Error = Stop;

    fn unit_variant(self) -> Result<(), Stop> {
        Ok(())
    }

    fn newtype_variant_seed<S: DeserializeSeed<'de>>(self, seed: S) -> Result<S::Value, Stop> {
        seed.deserialize(self.blank)
    }

    fn tuple_variant<V: Visitor<'de>>(self, length: usize, visitor: V) -> Result<V::Value, Stop> {
        self.blank.deserialize_tuple(length, visitor)
    }

    fn struct_variant<V: Visitor<'de>>(
        self,
        fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Stop> {
        self.blank.keyed(Shape { name: self.variant, fields }, visitor)
    }
}
