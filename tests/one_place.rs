//! What is described in one place: how many source and word files name a kind of fault, and, asked for by
//! `RIMEBENCH_SCRATCH=1 cargo test --no-default-features --test one_place`, how many a new kind of fault and a new parameter of systems
//! are asked for, by the compiler and by tests, in a copy of the sources.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use plant::FaultKind;

/// Most source and word files that a visible kind of fault takes; documents and tests aren't counted.
const FILES_OF_A_FAULT: usize = 4;
/// Most files that a parameter of the systems takes.
const FILES_OF_A_PARAMETER: usize = 2;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Source and word files, by their path from the root: no tests, no documents.
fn files() -> Vec<(String, String)> {
    let mut found = Vec::new();
    let mut folders = vec![root().join("src"), root().join("assets/locale"), root().join("assets/systems")];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(&folder).expect("a folder") {
            let path = entry.expect("an entry").path();
            let name = path.strip_prefix(root()).expect("below it").to_string_lossy().replace('\\', "/");
            let is_text = ["rs", "ftl", "ron"].iter().any(|ending| name.ends_with(&format!(".{ending}")));
            if path.is_dir() {
                if !name.ends_with("/tests") {
                    folders.push(path);
                }
            } else if is_text {
                let text = fs::read_to_string(&path).expect("text");
                // What stands below is tests of the file.
                let code = text.split("#[cfg(test)]\nmod ").next().unwrap_or_default().to_owned();
                found.push((name, code));
            }
        }
    }
    found.sort();
    found
}

fn has_word(text: &str, word: &str) -> bool {
    let is_part = |letter: char| letter.is_alphanumeric() || letter == '_';
    text.match_indices(word)
        .any(|(at, _)| !text[..at].ends_with(is_part) && !text[at + word.len()..].starts_with(is_part))
}

/// Files that name a kind of fault as code or as the key of a message.
fn naming(files: &[(String, String)], kind: FaultKind) -> BTreeSet<String> {
    let (name, key) = (format!("FaultKind::{}", kind.name()), format!("fault-kind-{} =", kind.kebab()));
    let row = format!("{} => Row", kind.name());
    let former = format!("{} (formerly", kind.name());
    let names = |(file, text): &&(String, String)| {
        has_word(text, &name) || text.contains(&key) || {
            file.ends_with("fault/catalogue.rs") && (text.contains(&row) || text.contains(&former))
        }
    };
    files.iter().filter(names).map(|(file, _)| file.clone()).collect()
}

#[test]
fn few_files_name_a_kind_of_fault() {
    let files = files();
    for kind in FaultKind::ALL {
        let names = naming(&files, kind);
        println!("{kind:?}: {names:?}");
        let must = ["src/plant/fault/catalogue.rs", "assets/locale/en-US/faults.ftl"];
        assert!(must.iter().all(|file| names.contains(*file)), "{kind:?}: {names:?}");
        assert!(names.len() <= FILES_OF_A_FAULT, "{kind:?} is named in {names:?}");
    }
}

/// Crates above `plant` match on no list of kinds: a pair that is likely together and what a look finds are named, one by one.
#[test]
fn no_crate_but_plant_lists_the_kinds() {
    let may = ["src/diagnosis/hypothesis.rs", "src/visit/sight.rs"];
    for (file, text) in files().iter().filter(|(file, _)| !file.starts_with("src/plant/fault/")) {
        let named =
            FaultKind::ALL.iter().filter(|kind| has_word(text, &format!("FaultKind::{}", kind.name())));
        let named: Vec<&FaultKind> = named.collect();
        let most = if may.contains(&file.as_str()) { usize::MAX } else { 2 };
        assert!(named.len() <= most, "{file} names {named:?}");
    }
}

/// A copy of the sources in a folder of its own.
struct Scratch {
    folder: PathBuf,
    touched: BTreeSet<&'static str>,
}

impl Scratch {
    /// `None` unless it is asked for: it compiles a good part of the program.
    fn asked_for(name: &str) -> Option<Scratch> {
        std::env::var_os("RIMEBENCH_SCRATCH")?;
        let folder = std::env::temp_dir().join(format!("rimebench-{name}-{}", std::process::id()));
        for part in ["src", "assets", "scenarios", "tests", "docs"] {
            copy(&root().join(part), &folder.join(part));
        }
        for file in ["Cargo.toml", "Cargo.lock", "clippy.toml", "README.md"] {
            fs::copy(root().join(file), folder.join(file)).expect("a copy");
        }
        Some(Scratch { folder, touched: BTreeSet::new() })
    }

    /// Puts a text before another one that stands once in a file.
    fn insert(&mut self, file: &'static str, before: &str, text: &str) {
        let path = self.folder.join(file);
        let was = fs::read_to_string(&path).expect("a file of the copy");
        assert_eq!(was.matches(before).count(), 1, "{file}: {before}");
        fs::write(&path, was.replacen(before, &format!("{text}{before}"), 1)).expect("it can be written");
        self.touched.insert(file);
    }

    /// Where it is built: what others have built there of the libraries need not be built anew.
    fn target(&self) -> PathBuf {
        std::env::var_os("CARGO_TARGET_DIR").map_or(self.folder.join("target"), PathBuf::from)
    }

    /// Whether a cargo command is content, and what it says.
    fn cargo(&self, arguments: &[&str]) -> (bool, String) {
        let output = Command::new(env!("CARGO"))
            .args(arguments)
            .arg("--offline")
            .current_dir(&self.folder)
            .env("CARGO_TARGET_DIR", self.target())
            .output()
            .expect("cargo runs");
        let said = [output.stdout, output.stderr].map(|bytes| String::from_utf8_lossy(&bytes).into_owned());
        (output.status.success(), said.concat())
    }

    /// Asserts that a command fails and names what is missing.
    fn is_asked_for(&self, arguments: &[&str], names: &str) {
        let (content, said) = self.cargo(arguments);
        assert!(!content && said.contains(names), "{arguments:?} should ask for {names}:\n{said}");
    }

    fn is_content(&self, arguments: &[&str]) {
        let (content, said) = self.cargo(arguments);
        assert!(content, "{arguments:?}:\n{said}");
    }
}

impl Drop for Scratch {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.folder);
    }
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).expect("a folder");
    for entry in fs::read_dir(from).expect("a folder") {
        let entry = entry.expect("an entry");
        let (source, target) = (entry.path(), to.join(entry.file_name()));
        if source.is_dir() {
            copy(&source, &target);
        } else {
            fs::copy(source, target).expect("a copy");
        }
    }
}

const ROWS: &str = "src/plant/fault/catalogue.rs";
const PART: &str = "src/plant/air.rs";
const SIGHTS: &str = "src/visit/sight.rs";
const WORDS: &str = "assets/locale/en-US/faults.ftl";

/// A visible fault with a physical parameter of its own: its row, the law that reads the parameter, what a look finds, words.
#[test]
fn a_scratch_fault_takes_no_more_than_four_files() {
    let Some(mut scratch) = Scratch::asked_for("fault") else { return };
    let words = ["test", "-p", "words", "--lib"];
    // A row without its columns: the compiler names each.
    let row =
        "    /// A scratch fault.\n    ScratchFault => Row {\n        group: FaultGroup::AirSide,\n        ";
    let rest = "needs: Equipment::Any,\n        severity: Severity::Graded { meaning: \"(share)\", suspected: FELT },\n        effect: \
                |e, s, _| leave(&mut e.scratch_share, s, 0.1),\n        repaired_by: &[Work::CleanCoil],\n        usual: 1.0,\n        \
                special: Special::NONE,\n    },\n";
    scratch.insert(ROWS, "    // Blower and controls.\n", &format!("{row}}},\n"));
    let (content, said) = scratch.cargo(&["check", "-p", "plant"]);
    let columns = ["needs", "severity", "effect", "repaired_by", "usual", "special"];
    assert!(!content && said.contains("missing fields"), "{said}");
    let named = columns.iter().filter(|column| said.contains(&format!("`{column}`"))).count();
    assert!(named >= 3, "the compiler names three columns and counts the rest:\n{said}");
    // With them it names the parameter.
    let path = scratch.folder.join(ROWS);
    let text = fs::read_to_string(&path).expect("the rows");
    fs::write(&path, text.replacen(&format!("{row}}},\n"), &format!("{row}{rest}"), 1)).expect("written");
    scratch.is_asked_for(&["check", "-p", "plant"], "scratch_share");
    scratch.insert(
        ROWS,
        "        filter_loading: f64 = 0.0,\n",
        "        /// Share of the air.\n        scratch_share: f64 = 1.0,\n",
    );
    // Nothing reads the parameter yet: the compiler warns of a field that is never read only where nobody derives its comparison, so
    // the law is counted without being asked for.
    scratch.insert(
        PART,
        "    /// A filter that is loaded too far tears;",
        "    /// Scratch law.\n    pub(crate) fn scratch(effects: &Effects) -> f64 {\n        effects.scratch_share\n    }\n\n",
    );
    scratch.is_asked_for(&words, "fault-kind-scratch-fault");
    scratch.insert(WORDS, "fault-kind-loaded-filter =", "fault-kind-scratch-fault = scratch\n");
    scratch.is_content(&words);
    // What a look finds.
    let finding = "    Finding {\n        at: Place::SupplyRegister,\n        degree: |visit| \
                   visit.severity_of(FaultKind::ScratchFault),\n        from: &[(0.2, Sight::ScratchSeen)],\n        seen: \
                   Observation::ScratchFound,\n        hides: Hides::Never,\n    },\n";
    let first = "    Finding {\n        at: Place::SupplyRegister,\n        degree: |visit| visit.severity_of(FaultKind::ClosedRegisters),";
    scratch.insert(SIGHTS, first, finding);
    scratch.is_asked_for(&["check", "-p", "visit"], "ScratchSeen");
    scratch.insert(
        SIGHTS,
        "    /// The thermostat's display is dark.\n",
        "    /// Scratch.\n    ScratchSeen,\n",
    );
    scratch.insert(
        SIGHTS,
        "    /// No ice on the coil or the suction line.\n",
        "    /// Scratch.\n    ScratchFound,\n",
    );
    scratch.is_asked_for(&words, "sight-scratch-seen");
    let messages = "sight-scratch-seen = Scratch.\nobservation-scratch-found = scratch\n";
    scratch.insert(WORDS, "sight-most-registers-shut =", messages);
    scratch.is_content(&words);
    // Nobody else is asked.
    scratch.is_content(&["check", "-p", "judge", "-p", "report", "-p", "ui"]);
    println!("a visible fault touches {:?}", scratch.touched);
    assert!(scratch.touched.len() <= FILES_OF_A_FAULT, "{:?}", scratch.touched);
}

/// A parameter of a part of the equipment: the field, and its value in the base.
#[test]
fn a_scratch_parameter_takes_no_more_than_two_files() {
    let Some(mut scratch) = Scratch::asked_for("parameter") else { return };
    let test = ["test", "-p", "plant", "--lib", "what_is_not_written_is_that_of_the_base"];
    let field = "        /// Scratch, W.\n        scratch_w: f64,\n";
    scratch.insert("src/plant/system/outdoor.rs", "        /// Fan power, W.\n", field);
    scratch.is_asked_for(&test, "scratch_w");
    let base = "assets/systems/split-3-ton-r410a-txv.ron";
    scratch.insert(base, "        fan_power_w: 230.0,\n", "        scratch_w: 1.0,\n");
    scratch.is_content(&test);
    println!("a parameter touches {:?}", scratch.touched);
    assert!(scratch.touched.len() <= FILES_OF_A_PARAMETER, "{:?}", scratch.touched);
}
