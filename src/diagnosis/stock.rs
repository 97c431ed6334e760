//! Shadows as they stood on arrival, kept for whoever asks for the same severity again.
//!
//! A history depends on the call, the suspect and the severity alone, not on a seed nor on what a learner does. So all visits to one
//! call that begin from clones of one arrival share what was put in between later.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

use crate::member::Member;

/// Most shadows that are kept, of some tens of kilobytes each.
const MOST: usize = 1000;

/// A line and amounts, these as they are stored.
type Key = (usize, Vec<u64>);

/// The stock of one arrival and its clones.
#[derive(Clone, Debug, Default)]
pub(crate) struct Stock {
    arrived: Arc<Mutex<BTreeMap<Key, Member>>>,
}

impl Stock {
    /// The shadow of a line at given amounts on arrival, made unless it is there.
    ///
    /// # Errors
    /// Those of making it.
    pub(crate) fn at<E>(
        &self,
        line: usize,
        amounts: &[f64],
        make: impl FnOnce() -> Result<Member, E>,
    ) -> Result<Member, E> {
        let key: Key = (line, amounts.iter().map(|amount| amount.to_bits()).collect());
        let known = self.arrived.lock().unwrap_or_else(PoisonError::into_inner).get(&key).cloned();
        if let Some(shadow) = known {
            return Ok(shadow);
        }
        // Two who ask for the same at the same time both make it, which comes to the same.
        let shadow = make()?;
        let mut arrived = self.arrived.lock().unwrap_or_else(PoisonError::into_inner);
        if arrived.len() < MOST {
            arrived.insert(key, shadow.clone());
        }
        Ok(shadow)
    }
}
