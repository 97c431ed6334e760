//! The layers of docs/architecture.md, held against what the workspace really is: arrows point down only, the
//! engine stays in one crate, the core knows nothing of the machine it runs on, and every crate is on the map.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

use toml::Table;

/// From the bottom up. A crate may name only crates that stand before it.
const LAYERS: [&str; 15] = [
    "media",
    "quantity",
    "ron_file",
    "plant",
    "call",
    "visit",
    "store",
    "diagnosis",
    "judge",
    "words",
    "chart",
    "report",
    "session",
    "ui",
    "app",
];
/// The one crate that may name the engine.
const ENGINE_CRATE: &str = "app";
/// Crates that may name egui.
const SCREEN_CRATES: [&str; 2] = ["ui", "app"];
/// Crates without file, clock, thread, random source or screen.
const PURE_CRATES: [&str; 2] = ["media", "plant"];
/// What pure crates must not mention.
const IMPURE: [&str; 8] =
    ["std::fs", "std::time", "std::thread", "std::env", "std::net", "std::process", "rand::", "println!"];
/// Longest source file, lines.
const LINES_MAX: usize = 700;

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

fn read(path: &Path) -> String {
    fs::read_to_string(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// What a manifest says about itself.
struct Manifest {
    name: String,
    /// Ordinary dependencies of any target.
    depends_on: Vec<String>,
    /// Dependencies of tests and build scripts as well.
    mentions: Vec<String>,
}

fn manifest(text: &str) -> Manifest {
    let table: Table = text.parse().expect("a manifest is TOML");
    let name = table["package"]["name"].as_str().expect("a package has a name").to_owned();
    let mut tables = vec![&table];
    if let Some(targets) = table.get("target").and_then(|target| target.as_table()) {
        tables.extend(targets.values().filter_map(|target| target.as_table()));
    }
    let of_kind = |kind: &str| -> Vec<String> {
        tables
            .iter()
            .filter_map(|table| table.get(kind).and_then(|value| value.as_table()))
            .flat_map(|table| table.iter().map(|(key, value)| real_name(key, value)))
            .collect()
    };
    let depends_on = of_kind("dependencies");
    let mentions = [depends_on.clone(), of_kind("dev-dependencies"), of_kind("build-dependencies")].concat();
    Manifest { name, depends_on, mentions }
}

/// A dependency's crate, whatever it is called locally.
fn real_name(key: &str, value: &toml::Value) -> String {
    value.get("package").and_then(|name| name.as_str()).unwrap_or(key).to_owned()
}

/// Everything that is wrong with the arrows of one crate.
fn wrong_arrows(manifest: &Manifest) -> Vec<String> {
    let name = &manifest.name;
    let mut wrong = Vec::new();
    if let Some(height) = LAYERS.iter().position(|layer| layer == name) {
        for other in &manifest.depends_on {
            if LAYERS
                .iter()
                .position(|layer| layer == other)
                .is_some_and(|other_height| other_height >= height)
            {
                wrong.push(format!("{name} names {other}, which does not lie below it"));
            }
        }
    }
    if name != ENGINE_CRATE {
        for other in &manifest.mentions {
            if other.starts_with("egui") && !SCREEN_CRATES.contains(&name.as_str()) {
                wrong.push(format!("{name} names {other}; only {SCREEN_CRATES:?} may"));
            }
            if other == "bevy" || other.starts_with("bevy_") {
                wrong.push(format!("{name} names {other}; only {ENGINE_CRATE} may"));
            }
        }
    }
    wrong
}

/// Lines of a source text that mention what a pure crate must not, comments left out.
fn impure_lines(source: &str) -> Vec<String> {
    source
        .lines()
        .enumerate()
        .filter(|(_, line)| {
            let code = line.split("//").next().unwrap_or("");
            IMPURE.iter().any(|word| code.contains(word))
        })
        .map(|(index, line)| format!("{}: {}", index + 1, line.trim()))
        .collect()
}

/// Crates that the map in the architecture document leaves out.
fn missing_from_map<'a>(names: &'a [String], document: &str) -> Vec<&'a String> {
    names.iter().filter(|name| !document.contains(&format!("`{name}`"))).collect()
}

fn members() -> Vec<PathBuf> {
    let table: Table = read(&root().join("Cargo.toml")).parse().expect("the root manifest is TOML");
    table["workspace"]["members"]
        .as_array()
        .expect("members are a list")
        .iter()
        .map(|member| root().join(member.as_str().expect("a member is a path")))
        .collect()
}

fn sources(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    let entries = fs::read_dir(folder).unwrap_or_else(|error| panic!("{}: {error}", folder.display()));
    for entry in entries {
        let path = entry.expect("a folder can be listed").path();
        if path.is_dir() {
            found.extend(sources(&path));
        } else if path.extension().is_some_and(|extension| extension == "rs") {
            found.push(path);
        }
    }
    found.sort();
    found
}

#[test]
fn arrows_point_down_only() {
    let manifests: Vec<Manifest> =
        members().iter().map(|folder| manifest(&read(&folder.join("Cargo.toml")))).collect();
    for layer in LAYERS {
        assert!(manifests.iter().any(|manifest| manifest.name == layer), "the layer {layer} is gone");
    }
    let wrong: Vec<String> = manifests.iter().flat_map(wrong_arrows).collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_crate_is_on_the_map() {
    let names: Vec<String> =
        members().iter().map(|folder| manifest(&read(&folder.join("Cargo.toml"))).name).collect();
    let document = read(&root().join("docs/architecture.md"));
    let missing = missing_from_map(&names, &document);
    assert!(missing.is_empty(), "not in docs/architecture.md: {missing:?}");
}

#[test]
fn the_core_knows_nothing_of_its_machine() {
    for name in PURE_CRATES {
        let folder = root().join("src").join(name);
        for path in sources(&folder).iter().filter(|path| !path.starts_with(folder.join("tests"))) {
            let lines = impure_lines(&read(path));
            assert!(lines.is_empty(), "{}:\n{}", path.display(), lines.join("\n"));
        }
    }
}

/// A test lets time pass by hand only if nothing else asks the system for it.
#[test]
fn the_session_asks_for_the_time_in_one_file() {
    let folder = root().join("src/session");
    for path in sources(&folder).iter().filter(|path| !path.starts_with(folder.join("tests"))) {
        let lines: Vec<String> =
            impure_lines(&read(path)).into_iter().filter(|line| line.contains("std::time")).collect();
        let asks = if path.ends_with("time.rs") { 1 } else { 0 };
        assert_eq!(lines.len(), asks, "{}:\n{}", path.display(), lines.join("\n"));
    }
}

#[test]
fn files_stay_small() {
    for path in sources(&root().join("src")).iter().chain(&sources(&root().join("tests"))) {
        let lines = read(path).lines().count();
        assert!(lines <= LINES_MAX, "{} has {lines} lines; at most {LINES_MAX}", path.display());
    }
}

/// Files of src/ui, with the files beside them that each names. What lies in a folder belongs to the file of its name.
fn arrows_between_panels() -> BTreeMap<String, BTreeSet<String>> {
    let folder = root().join("src/ui");
    let mut arrows: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for path in sources(&folder).iter().filter(|path| !path.starts_with(folder.join("tests"))) {
        let inside = path.strip_prefix(&folder).expect("it was found there");
        let name = inside.iter().next().expect("a file has a name").to_string_lossy();
        let name = name.trim_end_matches(".rs").to_owned();
        if name != "lib" {
            let named = named_in_crate(&read(path)).into_iter().filter(|other| *other != name);
            arrows.entry(name.clone()).or_default().extend(named);
        }
    }
    arrows
}

/// Modules of its own crate that a source names, comments left out.
fn named_in_crate(source: &str) -> BTreeSet<String> {
    let code: Vec<&str> = source.lines().map(|line| line.split("//").next().unwrap_or("")).collect();
    let code = code.join("\n");
    let word = |text: &str| -> String {
        text.trim_start().chars().take_while(|letter| letter.is_alphanumeric() || *letter == '_').collect()
    };
    code.split("crate::")
        .skip(1)
        .flat_map(|rest| match rest.strip_prefix('{') {
            Some(list) => list.split('}').next().unwrap_or("").split(',').map(word).collect(),
            None => vec![word(rest)],
        })
        .filter(|name| !name.is_empty())
        .collect()
}

/// A way from a name back to itself, if there is one.
fn circle(arrows: &BTreeMap<String, BTreeSet<String>>) -> Option<Vec<String>> {
    fn go(arrows: &BTreeMap<String, BTreeSet<String>>, way: &mut Vec<String>) -> bool {
        let last = way.last().expect("a way begins somewhere").clone();
        for next in arrows.get(&last).into_iter().flatten() {
            let is_closed = way.contains(next);
            way.push(next.clone());
            if is_closed || go(arrows, way) {
                return true;
            }
            way.pop();
        }
        false
    }
    arrows.keys().find_map(|name| {
        let mut way = vec![name.clone()];
        go(arrows, &mut way).then_some(way)
    })
}

#[test]
fn panels_name_each_other_in_no_circle_and_one_file_composes_them() {
    let arrows = arrows_between_panels();
    assert!(arrows.len() > 20, "{arrows:?}");
    assert_eq!(circle(&arrows), None);
    let above = arrows.iter().filter(|(_, named)| named.contains("stage")).map(|(name, _)| name);
    assert_eq!(above.collect::<Vec<_>>(), Vec::<&String>::new(), "only the library names the frame");
    let panels =
        ["clock", "dialogs", "hints", "instruments", "moves", "places", "review", "start", "tickets"];
    for panel in panels {
        assert!(arrows["stage"].contains(panel), "{panel} is not composed in the frame");
    }
}

// The checks themselves, on samples that must not pass.

#[test]
fn a_circle_is_found() {
    let source = "use crate::b;\nuse crate::{c, d::{E, F}};\n// crate::no\nfn a() { crate::g::h() }";
    assert_eq!(named_in_crate(source), ["b", "c", "d", "F", "g"].map(str::to_owned).into());
    let arrows = |pairs: &[(&str, &str)]| -> BTreeMap<String, BTreeSet<String>> {
        pairs.iter().map(|(from, to)| ((*from).to_owned(), BTreeSet::from([(*to).to_owned()]))).collect()
    };
    assert_eq!(circle(&arrows(&[("a", "b"), ("b", "c")])), None);
    let found = circle(&arrows(&[("a", "b"), ("b", "c"), ("c", "b")])).expect("b names c, which names b");
    assert_eq!(found, ["a", "b", "c", "b"]);
}

#[test]
fn an_arrow_that_points_up_is_found() {
    let up = manifest(
        "[package]\nname = \"plant\"\n[dependencies]\nmedia.workspace = true\nvisit.workspace = true",
    );
    assert_eq!(wrong_arrows(&up), ["plant names visit, which does not lie below it"]);
    let renamed =
        manifest("[package]\nname = \"media\"\n[dependencies]\nx = { package = \"judge\", path = \"..\" }");
    assert_eq!(wrong_arrows(&renamed).len(), 1);
    let hidden = manifest("[package]\nname = \"call\"\n[target.'cfg(unix)'.dependencies]\nui = \"1\"");
    assert_eq!(wrong_arrows(&hidden).len(), 1);
    let down = manifest("[package]\nname = \"visit\"\n[dependencies]\ncall.workspace = true\nserde = \"1\"");
    assert!(wrong_arrows(&down).is_empty());
}

#[test]
fn the_engine_outside_its_crate_is_found() {
    for kind in ["dependencies", "dev-dependencies", "build-dependencies"] {
        let sample = manifest(&format!("[package]\nname = \"ui\"\n[{kind}]\nbevy_egui = \"1\""));
        assert_eq!(wrong_arrows(&sample), ["ui names bevy_egui; only app may"]);
    }
    let screen = manifest("[package]\nname = \"session\"\n[dependencies]\negui_plot = \"1\"");
    assert_eq!(wrong_arrows(&screen).len(), 1);
    assert!(wrong_arrows(&manifest("[package]\nname = \"app\"\n[dependencies]\nbevy = \"1\"")).is_empty());
}

#[test]
fn an_impure_line_is_found() {
    assert_eq!(
        impure_lines("fn a() {\n    let t = std::time::Instant::now();\n}"),
        ["2: let t = std::time::Instant::now();"]
    );
    assert!(impure_lines("// std::fs is not used here\nfn a() {}").is_empty());
}

#[test]
fn a_crate_missing_from_the_map_is_found() {
    let names = ["media".to_owned(), "plant".to_owned()];
    assert_eq!(missing_from_map(&names, "the crate `media` and the plant"), [&names[1]]);
}
