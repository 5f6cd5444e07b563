//! Quantities in files: text with a unit where a person reads it, the SI number where not.

use crate::Quantity;
use crate::quantity::allowed;

/// Text with a unit in human-readable formats, the SI number in binary ones.
pub(crate) fn deserialize<'de, Q: Quantity, D: serde::Deserializer<'de>>(
    d: D,
) -> Result<Q, D::Error> {
    if d.is_human_readable() {
        d.deserialize_any(TextVisitor(core::marker::PhantomData))
    } else {
        let si = <f64 as serde::Deserialize>::deserialize(d)?;
        if si.is_finite() && si >= Q::LOWEST {
            Ok(Q::from_si(si + 0.0))
        } else {
            Err(serde::de::Error::custom(format_args!(
                "{si} is not a {}",
                Q::NAME
            )))
        }
    }
}

struct TextVisitor<Q>(core::marker::PhantomData<Q>);

impl<Q: Quantity> serde::de::Visitor<'_> for TextVisitor<Q> {
    type Value = Q;

    fn expecting(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(
            f,
            "a {} as text with one of the units {}",
            Q::NAME,
            allowed(Q::UNITS)
        )
    }

    fn visit_str<E: serde::de::Error>(self, text: &str) -> Result<Q, E> {
        Q::parse(text).map_err(E::custom)
    }

    fn visit_f64<E: serde::de::Error>(self, number: f64) -> Result<Q, E> {
        self.visit_str(&number.to_string())
    }

    fn visit_i64<E: serde::de::Error>(self, number: i64) -> Result<Q, E> {
        self.visit_str(&number.to_string())
    }

    fn visit_u64<E: serde::de::Error>(self, number: u64) -> Result<Q, E> {
        self.visit_str(&number.to_string())
    }
}
