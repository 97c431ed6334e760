//! The recipes of DEVELOPERS.md made once: a scratch move, quantity and milestone in a copy of the sources. The compiler has to name each
//! file that is missing, and there may be few of them.
//!
//! Takes minutes: `RIMEBENCH_RECIPES=1 cargo test -p visit --test recipes`.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// What is put into a file, before the first place where a text stands.
struct Edit {
    file: &'static str,
    before: &'static str,
    text: &'static str,
}

/// A recipe: the variant, what the compiler asks for once it is there, and in how many files a test asks besides (words, offers).
struct Recipe {
    what: &'static str,
    variant: Edit,
    rest: &'static [Edit],
    asked_by_tests: usize,
    most_files: usize,
}

const RECIPES: [Recipe; 3] = [
    Recipe {
        what: "a move",
        variant: Edit {
            file: "src/visit/action.rs",
            before: "    /// Read the data plate of the outdoor unit",
            text: "    /// Scratch.\n    Scratch,\n",
        },
        rest: &[
            Edit {
                file: "src/visit/moves.rs",
                before: "            Move::ReadDataPlate =>",
                text: "            Move::Scratch => look::scratch(),\n",
            },
            Edit {
                file: "src/visit/moves/look.rs",
                before: "/// The data plate of the outdoor unit.",
                text: "/// Scratch.\npub(super) fn scratch() -> Row {\n    Row { takes_s: 5.0, ..ask() }\n}\n\n",
            },
        ],
        // assets/locale/en-US/moves.ftl and src/visit/offers.rs.
        asked_by_tests: 2,
        most_files: 5,
    },
    Recipe {
        what: "a quantity",
        variant: Edit {
            file: "src/visit/measured.rs",
            before: "    /// Refrigerant weighed in or added, kg.",
            text: "    /// Scratch.\n    Scratch,\n",
        },
        rest: &[
            Edit {
                file: "src/visit/measured.rs",
                before: "            Measured::Vacuum => Quantity {",
                text: "            Measured::Scratch => Quantity { range: 5.0, ..Measured::Vacuum.row() },\n",
            },
            Edit {
                file: "src/visit/measured.rs",
                before: "            Measured::Vacuum => Some(truth.suction_pressure_pa),",
                text: "            Measured::Scratch => Some(truth.room_k),\n",
            },
            Edit {
                file: "src/visit/instruments.rs",
                before: "            Measured::Vacuum => self.vacuum,",
                text: "            Measured::Scratch => None,\n",
            },
        ],
        // assets/locale/en-US/parts.ftl.
        asked_by_tests: 1,
        most_files: 3,
    },
    Recipe {
        what: "a milestone",
        variant: Edit {
            file: "src/call/spec.rs",
            before: "    /// The data plate was read.",
            text: "    /// Scratch.\n    Scratch,\n",
        },
        rest: &[Edit {
            file: "src/visit/milestones.rs",
            before: "        Milestone::DataPlateRead =>",
            text: "        Milestone::Scratch => (By::Move, Way::ByTheRepair, WhereARuleAsks),\n",
        }],
        // assets/locale/en-US/marks.ftl.
        asked_by_tests: 1,
        most_files: 4,
    },
];

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).expect("a folder can be made");
    for entry in fs::read_dir(from).expect("the folder is there") {
        let entry = entry.expect("a file");
        let name = entry.file_name();
        if entry.file_type().expect("a type").is_dir() {
            if name != "target" && name != ".git" && name != "shared" {
                copy(&entry.path(), &to.join(name));
            }
        } else {
            fs::copy(entry.path(), to.join(name)).expect("it can be copied");
        }
    }
}

/// Puts a text in; returns what the file was.
fn put(scratch: &Path, edit: &Edit) {
    let path = scratch.join(edit.file);
    let text = fs::read_to_string(&path).expect("it is there");
    let at = text.find(edit.before).unwrap_or_else(|| panic!("{}: {}", edit.file, edit.before));
    fs::write(&path, format!("{}{}{}", &text[..at], edit.text, &text[at..])).expect("it can be written");
}

/// Files in which the compiler finds something missing, of the crates up to the page and the benchmarks.
fn asked_for(scratch: &Path) -> BTreeSet<String> {
    let crates = ["visit", "diagnosis", "judge", "words", "report", "ui", "bench", "trials"];
    let output = Command::new(env!("CARGO"))
        .args(["check", "--offline", "--quiet", "--message-format=short", "--keep-going"])
        .args(crates.iter().flat_map(|name| ["-p", name]))
        .current_dir(scratch)
        .output()
        .expect("cargo runs");
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    let files: BTreeSet<String> = said
        .lines()
        .filter(|line| line.contains(": error"))
        .filter_map(|line| Some(line.split_once(".rs:")?.0.to_owned() + ".rs"))
        .collect();
    assert!(output.status.success() == files.is_empty(), "{said}");
    files
}

#[test]
fn the_compiler_names_each_file_of_a_recipe_and_they_are_few() {
    if std::env::var_os("RIMEBENCH_RECIPES").is_none() {
        return;
    }
    let scratch = std::env::temp_dir().join(format!("rimebench-recipes-{}", std::process::id()));
    copy(&root(), &scratch);
    assert!(asked_for(&scratch).is_empty(), "the sources as they are");
    for recipe in &RECIPES {
        let touched: BTreeSet<&str> =
            recipe.rest.iter().map(|edit| edit.file).chain([recipe.variant.file]).collect();
        let before: Vec<(&str, String)> = touched
            .iter()
            .map(|file| (*file, fs::read_to_string(scratch.join(file)).expect("it is there")))
            .collect();
        put(&scratch, &recipe.variant);
        let missing = asked_for(&scratch);
        assert!(!missing.is_empty(), "{}: nothing is asked for", recipe.what);
        for file in &missing {
            assert!(touched.contains(file.as_str()), "{}: {file} is asked for as well", recipe.what);
        }
        for edit in recipe.rest {
            put(&scratch, edit);
        }
        assert!(asked_for(&scratch).is_empty(), "{}: the recipe leaves something out", recipe.what);
        let files = touched.len() + recipe.asked_by_tests;
        assert!(files <= recipe.most_files, "{} takes {files} files: {touched:?}", recipe.what);
        println!("{}: {files} files, the compiler names {missing:?}", recipe.what);
        for (file, text) in before {
            fs::write(scratch.join(file), text).expect("it can be written");
        }
    }
    fs::remove_dir_all(&scratch).expect("it can be removed");
}
