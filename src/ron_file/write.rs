//! Writing: values as RON in one layout, and a value within a text that keeps everything else as it is.

use serde::Serialize;

use crate::mistake::Mistake;
use crate::tree::Tree;

/// A value as the text of a file: four blanks an indent, brackets deeper than `depth` in one line, no names of structs.
///
/// # Panics
/// If the value is of a form that RON can't write, as a map with keys that are maps: numbers, texts, lists and plain types never are.
pub fn write<T: ?Sized + Serialize>(value: &T, depth: usize) -> String {
    let config = ron::ser::PrettyConfig::new().struct_names(false).depth_limit(depth);
    let text = ron::ser::to_string_pretty(value, config).expect("what is written to files is plain");
    text + "\n"
}

/// A value in one line, without its end.
///
/// # Panics
/// As [`write`].
pub fn write_line<T: ?Sized + Serialize>(value: &T) -> String {
    ron::to_string(value).expect("what is written to files is plain")
}

/// A text with another value at a path like `faults[1].severity[0]`; comments, blanks and the order of everything else stay. None if nothing
/// stands there or brackets do not close.
pub fn replaced<T: ?Sized + Serialize>(text: &str, path: &str, value: &T) -> Option<String> {
    let tree = Tree::read(text, &mut |_, _: Mistake| {});
    let (index, is_there) = tree.find(path).filter(|_| tree.is_whole)?;
    let node = tree.nodes[index];
    let (before, after) = (&tree.text[..node.start as usize], &tree.text[node.end as usize..]);
    is_there.then(|| format!("{before}{}{after}", write_line(value)))
}
