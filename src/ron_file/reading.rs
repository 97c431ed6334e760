//! Reading a text: its tree, the values in it, and all that is wrong with it.

use std::cell::RefCell;
use std::collections::BTreeSet;

use serde::de::DeserializeOwned;

use crate::at::At;
use crate::context::{Context, Stop};
use crate::mistake::{Mistake, OldName, Place, Problem, Problems};
use crate::noted::{MOST_TOLD, Manner, Noted};
use crate::tree::{Form, Tree};

/// A text that is being read. `K` is what can be wrong with it, mistakes of writing among it.
#[derive(Debug)]
pub struct Reading<'t, K> {
    tree: Tree<'t>,
    noted: Noted<K>,
    old_names: Vec<OldName>,
}

impl<'t, K: From<Mistake>> Reading<'t, K> {
    /// Reads a text into its tree; a byte order mark before it is taken away.
    pub fn new(text: &'t str) -> Reading<'t, K> {
        let mut noted = Noted { told: Vec::new(), count: 0 };
        let tree = Tree::read(text, &mut |offset, mistake| noted.note(offset, || mistake.into()));
        Reading { tree, noted, old_names: Vec::new() }
    }

    /// The value of the whole. Where there are mistakes, something stands in for what could not be read, so that the value serves only to look
    /// for further mistakes ([`Reading::report`] leaves out what stands in). None if brackets do not close.
    pub fn value<T: DeserializeOwned>(&mut self, manner: &Manner<'_>) -> Option<T> {
        self.value_at("", manner)
    }

    /// The value at a path, as [`Reading::value`]; none if nothing stands there.
    pub fn value_at<T: DeserializeOwned>(&mut self, path: &str, manner: &Manner<'_>) -> Option<T> {
        if !self.tree.is_whole {
            return None;
        }
        let (index, is_there) = self.tree.find(path)?;
        if !is_there {
            return None;
        }
        let required = RefCell::new(BTreeSet::new());
        // What must be there is learned from what is missed: each time one key of one type more.
        loop {
            let noted = Noted { told: Vec::new(), count: 0 };
            let context = Context::new(&self.tree, manner, &required, noted);
            let read = T::deserialize(At::new(&context, index));
            let is_again = matches!(read, Err(Stop::Again));
            let (noted, old_names) = context.into_noted();
            if is_again {
                continue;
            }
            let room = MOST_TOLD.saturating_sub(self.noted.told.len());
            self.noted.count += noted.count;
            self.noted
                .told
                .extend(noted.told.into_iter().take(room).map(|(at, mistake)| (at, mistake.into())));
            for old_name in old_names {
                if !self.old_names.contains(&old_name) {
                    self.old_names.push(old_name);
                }
            }
            return read.ok();
        }
    }

    /// Whether there is a value at a path.
    pub fn has(&self, path: &str) -> bool {
        self.tree.find(path).is_some_and(|(_, is_there)| is_there)
    }

    /// What is written at a path, if it is a plain name or number.
    pub fn word(&self, path: &str) -> Option<&'t str> {
        let (index, is_there) = self.tree.find(path)?;
        (is_there && self.tree.nodes[index].form == Form::Word).then(|| self.tree.text_of(index))
    }

    /// Notes that something is wrong with the value at a path like `faults[1].severity[0]`: placed there, or at the innermost value on the
    /// path that is in the text. Nothing is noted if there are mistakes in that value already.
    pub fn report(&mut self, path: &str, kind: impl Into<K>) {
        if self.noted.is_full() {
            self.noted.count += 1;
            return;
        }
        let Some((index, is_there)) = self.tree.find(path) else { return };
        let node = self.tree.nodes[index];
        let is_spoiled = if is_there { !self.is_sound_at(index) } else { self.is_noted(node.start as usize) };
        if !is_spoiled {
            self.noted.note(node.start as usize, || kind.into());
        }
    }

    /// Notes that something is wrong with the file that is not in its text, as its name.
    pub fn note_of_file(&mut self, kind: impl Into<K>) {
        self.noted.note(0, || kind.into());
    }

    /// Whether nothing is wrong so far with what stands at a path, and it is there.
    pub fn is_sound(&self, path: &str) -> bool {
        !self.noted.is_full()
            && self.tree.find(path).is_some_and(|(index, is_there)| is_there && self.is_sound_at(index))
    }

    fn is_noted(&self, offset: usize) -> bool {
        self.noted.told.iter().any(|(at, _)| *at == offset)
    }

    fn is_sound_at(&self, index: usize) -> bool {
        let node = self.tree.nodes[index];
        let span = node.start as usize..(node.end as usize).max(node.start as usize + 1);
        !self.noted.told.iter().any(|(at, _)| span.contains(at))
    }

    /// Whether anything is wrong so far.
    pub fn has_problems(&self) -> bool {
        self.noted.count > 0
    }

    /// Ends the reading: old names that were read as those of today, each once.
    ///
    /// # Errors
    /// What is wrong, in the order of the text.
    pub fn finish(self, file: &str) -> Result<Vec<OldName>, Problems<K>> {
        if self.noted.count == 0 {
            return Ok(self.old_names);
        }
        let mut noted = self.noted.told;
        noted.sort_by_key(|(offset, _)| *offset);
        let more = self.noted.count - noted.len();
        let (mut line, mut line_start, mut seen) = (1, 0, 0);
        let text = self.tree.text;
        let mut told = Vec::new();
        for (offset, kind) in noted {
            // Lines are counted once from the first to the last of them.
            let offset = offset.min(text.len());
            for (at, _) in text[seen..offset].match_indices('\n') {
                line += 1;
                line_start = seen + at + 1;
            }
            seen = offset;
            let column = text[line_start..offset].chars().count() + 1;
            let place = Place { line, column, path: self.tree.path_to(offset) };
            told.push(Problem { place, kind });
        }
        Err(Problems { file: file.to_owned(), told, more })
    }
}
