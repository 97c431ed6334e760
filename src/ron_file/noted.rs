//! How a text is read, and what is noted of it meanwhile.

/// Most problems of a text that are told; the others are counted.
pub const MOST_TOLD: usize = 50;

/// How a text is read.
#[derive(Clone, Copy, Debug, Default)]
pub struct Manner<'m> {
    /// For a key an example of its value, for hints.
    pub examples: &'m [(&'static str, &'static str)],
    /// Names of older files with those of today, keys and variants alike. A name that is known is never taken for an old one.
    pub old_names: &'m [(&'static str, &'static str)],
}

/// What is noted of a text while it is read.
#[derive(Debug)]
pub(crate) struct Noted<K> {
    /// Byte offsets with what is wrong there.
    pub told: Vec<(usize, K)>,
    /// How many there are in all.
    pub count: usize,
}

impl<K> Noted<K> {
    pub(crate) fn note(&mut self, offset: usize, kind: impl FnOnce() -> K) {
        self.count += 1;
        if self.told.len() < MOST_TOLD {
            self.told.push((offset, kind()));
        }
    }

    pub(crate) fn is_full(&self) -> bool {
        self.told.len() >= MOST_TOLD
    }
}
