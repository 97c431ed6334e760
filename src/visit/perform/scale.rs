//! What a charging scale shows, in the words of the notebook.

use media::units::oz_from_kg;

use crate::limits::scale_tells;

/// A weight with its unit; less than the scale tells is nothing, whatever its display drifts to.
pub(super) fn weight(mass_kg: f64) -> String {
    if scale_tells(mass_kg) { format!("{:.1} oz", oz_from_kg(mass_kg)) } else { "nothing".to_owned() }
}
