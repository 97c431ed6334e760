//! Some hundred files that are nearly right: no reader panics, takes long or tells nonsense. As many as wanted:
//! `cargo run --release -p bench --bin mutate`.

use std::collections::BTreeSet;
use std::path::Path;

use bench::mutations::{Fate, Kind, Sources, fate_of};

/// Files of this test.
const FILES: u64 = 800;

#[test]
fn no_reader_breaks_on_a_file_that_is_nearly_right() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../scenarios/visits");
    let scratch = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("mutations-{}", std::process::id()));
    let sources = Sources::gather(&folder, &scratch).expect("sound texts");
    let (mut broken, mut seen) = (Vec::new(), BTreeSet::new());
    for number in 0..FILES {
        match sources.fate(number) {
            (kind, Fate::Broken(why)) => broken.push(format!("file {number}, {kind:?}: {why}")),
            (kind, fate) => {
                seen.insert((kind, fate == Fate::Read));
            }
        }
    }
    std::fs::remove_dir_all(&scratch).expect("it was made");
    assert!(broken.is_empty(), "{}", broken.join("\n"));
    // Both happen to every kind, or the texts are too sound or too spoilt to tell anything.
    assert_eq!(seen.len(), 2 * Kind::ALL.len(), "{seen:?}");
}

/// What broke a reader once breaks it no more. The ending says which reader: `.call.ron`, `.moves.ron`, `.record.ron`, `.journal`.
#[test]
fn no_file_of_the_corpus_breaks_its_reader() {
    let corpus = Path::new(env!("CARGO_MANIFEST_DIR")).join("../corpus");
    let mut read = 0;
    for file in std::fs::read_dir(corpus).expect("the corpus is there") {
        let path = file.expect("it can be listed").path();
        let name = path.file_name().expect("a file").to_string_lossy().into_owned();
        let kind = Kind::ALL.into_iter().find(|kind| name.ends_with(&format!(".{}", kind.ending())));
        let text = std::fs::read_to_string(&path).expect("it can be read");
        let copy =
            Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("corpus-{}-{name}", std::process::id()));
        let fate = fate_of(kind.expect("an ending that tells the kind"), &text, &copy);
        assert!(!matches!(fate, Fate::Broken(_)), "{name}: {fate:?}");
        read += 1;
    }
    assert!(read > 0, "the corpus is empty");
}
