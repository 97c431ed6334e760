//! What a notebook knows of ice on the coil.

use crate::action::Move;
use crate::notebook::{Entry, Outcome};
use crate::place::Place;
use crate::sight::Observation;

/// Less ice than this is not seen, kg.
pub(crate) const CLEAR_FROST_KG: f64 = 0.01;

/// The coil as it was last seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CoilAsSeen {
    /// Nobody has looked, or the cabinet was shut and its pipes told nothing.
    Unseen,
    /// Free of ice.
    Clear,
    /// Frost on part of it, or on the suction line where it leaves the cabinet.
    SomeIce,
    /// A block of ice.
    BlockOfIce,
}

impl CoilAsSeen {
    /// By the last entry that tells.
    pub fn in_notebook(notebook: &[Entry]) -> CoilAsSeen {
        notebook.iter().rev().find_map(told).unwrap_or(CoilAsSeen::Unseen)
    }

    /// Whether ice was seen.
    pub fn is_iced(self) -> bool {
        matches!(self, CoilAsSeen::SomeIce | CoilAsSeen::BlockOfIce)
    }
}

fn told(entry: &Entry) -> Option<CoilAsSeen> {
    match (&entry.action, &entry.outcome) {
        (Move::Look(Place::IndoorCoil), Outcome::Seen(seen)) => seen.iter().find_map(|one| match one {
            Observation::NoIce => Some(CoilAsSeen::Clear),
            Observation::SomeIce => Some(CoilAsSeen::SomeIce),
            Observation::BlockOfIce => Some(CoilAsSeen::BlockOfIce),
            _ => None,
        }),
        (_, Outcome::Verified(found)) if found.frost_mass_kg > CLEAR_FROST_KG => Some(CoilAsSeen::SomeIce),
        (_, Outcome::Verified(_)) => Some(CoilAsSeen::Clear),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::running::Running;

    fn look(number: u32, place: Place, seen: &[Observation]) -> Entry {
        Entry {
            number,
            action: Move::Look(place),
            started_s: 0.0,
            finished_s: 60.0,
            running: Running::default(),
            outcome: Outcome::Seen(seen.to_vec()),
            notes: Vec::new(),
        }
    }

    #[test]
    fn the_last_look_that_tells_counts() {
        let mut notebook = vec![look(1, Place::IndoorCoil, &[])];
        assert_eq!(CoilAsSeen::in_notebook(&notebook), CoilAsSeen::Unseen, "a shut cabinet tells nothing");
        // Frost on the line outdoors is not ice on the coil.
        notebook.push(look(2, Place::OutdoorUnit, &[Observation::SomeIce]));
        assert_eq!(CoilAsSeen::in_notebook(&notebook), CoilAsSeen::Unseen);
        for (seen, expected) in [
            (Observation::BlockOfIce, CoilAsSeen::BlockOfIce),
            (Observation::SomeIce, CoilAsSeen::SomeIce),
            (Observation::NoIce, CoilAsSeen::Clear),
        ] {
            notebook.push(look(3, Place::IndoorCoil, &[seen]));
            assert_eq!(CoilAsSeen::in_notebook(&notebook), expected);
            assert_eq!(expected.is_iced(), seen != Observation::NoIce);
        }
        notebook.push(look(4, Place::IndoorCoil, &[]));
        assert_eq!(CoilAsSeen::in_notebook(&notebook), CoilAsSeen::Clear);
    }
}
