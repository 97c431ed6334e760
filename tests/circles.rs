//! No circle of imports among the files of a crate.
//!
//! A file imports another when it names something that is defined there: in a `use`, or by a path. What a file passes on
//! (`pub use`) is followed to where it is defined, and is itself no import. Tests are left out.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

use syn::visit::{self, Visit};
use syn::{Attribute, Item, UseTree, Visibility};

/// A file's place in its crate: `[]` is lib.rs or main.rs, `[plant, step]` is plant/step.rs.
type Place = Vec<String>;
/// Files of one crate, each with what it imports.
type Imports = BTreeMap<Place, BTreeSet<Place>>;

/// What a file names.
#[derive(Default)]
struct Names {
    /// Paths that it uses, segment by segment.
    used: Vec<Vec<String>>,
    /// Paths that it passes on, each with the name under which it does.
    passed_on: Vec<(Vec<String>, String)>,
}

fn is_test(attributes: &[Attribute]) -> bool {
    attributes.iter().any(|one| {
        one.path().is_ident("test")
            || one.path().is_ident("cfg")
                && one.parse_args::<syn::Path>().is_ok_and(|path| path.is_ident("test"))
    })
}

fn flatten(tree: &UseTree, before: &[String], found: &mut Vec<(Vec<String>, String)>) {
    let with = |name: &syn::Ident| {
        let mut path = before.to_vec();
        path.push(name.to_string());
        path
    };
    match tree {
        UseTree::Path(path) => flatten(&path.tree, &with(&path.ident), found),
        UseTree::Group(group) => group.items.iter().for_each(|tree| flatten(tree, before, found)),
        UseTree::Name(name) if name.ident == "self" => {
            found.push((before.to_vec(), before.last().cloned().unwrap_or_default()));
        }
        UseTree::Name(name) => found.push((with(&name.ident), name.ident.to_string())),
        UseTree::Rename(name) => found.push((with(&name.ident), name.rename.to_string())),
        UseTree::Glob(_) => found.push((before.to_vec(), "*".to_owned())),
    }
}

impl<'ast> Visit<'ast> for Names {
    fn visit_item(&mut self, item: &'ast Item) {
        match item {
            Item::Mod(module) if is_test(&module.attrs) => {}
            Item::Fn(function) if is_test(&function.attrs) => {}
            Item::Use(one) => {
                let mut found = Vec::new();
                flatten(&one.tree, &[], &mut found);
                if matches!(one.vis, Visibility::Inherited) {
                    self.used.extend(found.into_iter().map(|(path, _)| path));
                } else {
                    self.passed_on.extend(found);
                }
            }
            other => visit::visit_item(self, other),
        }
    }

    fn visit_path(&mut self, path: &'ast syn::Path) {
        let segments: Vec<String> = path.segments.iter().map(|one| one.ident.to_string()).collect();
        if segments.len() > 1 {
            self.used.push(segments);
        }
        visit::visit_path(self, path);
    }

    fn visit_macro(&mut self, one: &'ast syn::Macro) {
        // Paths in the arguments of macros: words joined by double colons.
        let text = one.tokens.to_string().replace(" :: ", "::");
        for word in text.split(|c: char| !(c.is_alphanumeric() || c == '_' || c == ':')) {
            if word.contains("::") {
                self.used.push(word.split("::").map(str::to_owned).collect());
            }
        }
        visit::visit_macro(self, one);
    }
}

fn names_in(text: &str) -> Names {
    let file = syn::parse_file(text).expect("the sources compile");
    let mut names = Names::default();
    names.visit_file(&file);
    names
}

/// The files of a crate and what each imports.
fn imports_of(files: &BTreeMap<Place, String>) -> Imports {
    let names: BTreeMap<Place, Names> =
        files.iter().map(|(place, text)| (place.clone(), names_in(text))).collect();
    let mut passed_on: BTreeMap<Place, BTreeMap<String, Place>> = BTreeMap::new();
    // What is passed on may be passed on again.
    for _ in 0..3 {
        for (place, names) in &names {
            for (path, name) in &names.passed_on {
                if let Some(defined) = resolve(path, place, files, &passed_on) {
                    passed_on.entry(place.clone()).or_default().insert(name.clone(), defined);
                }
            }
        }
    }
    names
        .iter()
        .map(|(place, names)| {
            let imports = names.used.iter().filter_map(|path| resolve(path, place, files, &passed_on));
            (place.clone(), imports.filter(|other| other != place).collect())
        })
        .collect()
}

/// The file in which a path ends, seen from a file of the same crate; none if it leads out of the crate.
fn resolve(
    path: &[String],
    from: &Place,
    files: &BTreeMap<Place, String>,
    passed_on: &BTreeMap<Place, BTreeMap<String, Place>>,
) -> Option<Place> {
    let mut rest = path;
    let mut place = match path.first()?.as_str() {
        "crate" => {
            rest = &rest[1..];
            Place::new()
        }
        "self" => {
            rest = &rest[1..];
            from.clone()
        }
        "super" => {
            let mut place = from.clone();
            while rest.first().is_some_and(|one| one == "super") {
                place.pop()?;
                rest = &rest[1..];
            }
            place
        }
        first => {
            let mut child = from.clone();
            child.push(first.to_owned());
            files.contains_key(&child).then(|| from.clone())?
        }
    };
    while let Some(first) = rest.first() {
        let mut child = place.clone();
        child.push(first.clone());
        if files.contains_key(&child) {
            place = child;
            rest = &rest[1..];
        } else if let Some(defined) = passed_on.get(&place).and_then(|names| names.get(first)) {
            return Some(defined.clone());
        } else {
            break;
        }
    }
    Some(place)
}

/// Groups of files that import each other, directly or by way of others.
fn circles(imports: &Imports) -> Vec<Vec<Place>> {
    let reach = |from: &Place| {
        let (mut seen, mut open) = (BTreeSet::new(), vec![from.clone()]);
        while let Some(place) = open.pop() {
            for next in imports.get(&place).into_iter().flatten() {
                if seen.insert(next.clone()) {
                    open.push(next.clone());
                }
            }
        }
        seen
    };
    let reached: BTreeMap<&Place, BTreeSet<Place>> =
        imports.keys().map(|place| (place, reach(place))).collect();
    let mut found: BTreeSet<Vec<Place>> = BTreeSet::new();
    for (place, far) in &reached {
        if far.contains(*place) {
            let together =
                far.iter().filter(|other| reached.get(other).is_some_and(|back| back.contains(*place)));
            found.insert(together.cloned().collect());
        }
    }
    found.into_iter().collect()
}

fn shown(circle: &[Place]) -> String {
    let name = |place: &Place| if place.is_empty() { "lib".to_owned() } else { place.join("/") };
    circle.iter().map(name).collect::<Vec<_>>().join(", ")
}

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).to_owned()
}

fn files_below(folder: &Path, place: &Place, files: &mut BTreeMap<Place, String>) {
    for entry in fs::read_dir(folder).expect("a folder of sources") {
        let path = entry.expect("a folder lists its files").path();
        let stem = path.file_stem().expect("a name").to_string_lossy().into_owned();
        let mut child = place.clone();
        child.push(stem.clone());
        if path.is_dir() {
            if stem != "tests" && stem != "data" {
                files_below(&path, &child, files);
            }
        } else if path.extension().is_some_and(|end| end == "rs") && stem != "tests" {
            let place = if matches!(stem.as_str(), "lib" | "mod" | "main") { place.clone() } else { child };
            files.insert(place, fs::read_to_string(&path).expect("a source is text"));
        }
    }
}

#[test]
fn files_of_a_crate_import_each_other_in_no_circle() {
    let mut wrong = Vec::new();
    let mut crates: Vec<PathBuf> = fs::read_dir(root().join("src"))
        .expect("sources")
        .map(|entry| entry.expect("a folder lists its files").path())
        .filter(|path| path.is_dir())
        .collect();
    crates.sort();
    for folder in &crates {
        let mut files = BTreeMap::new();
        files_below(folder, &Place::new(), &mut files);
        let found = circles(&imports_of(&files));
        let name = folder.file_name().expect("a name").to_string_lossy();
        println!("{name}: {} files, {} circles", files.len(), found.len());
        wrong.extend(found.iter().map(|circle| format!("{name}: {}", shown(circle))));
    }
    assert!(crates.len() > 10, "crates are looked for in src");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

fn sample(files: &[(&str, &str)]) -> Vec<String> {
    let place =
        |name: &str| if name == "lib" { Place::new() } else { name.split('/').map(str::to_owned).collect() };
    let files = files.iter().map(|(name, text)| (place(name), (*text).to_owned())).collect();
    circles(&imports_of(&files)).iter().map(|circle| shown(circle)).collect()
}

#[test]
fn a_circle_is_found_however_it_is_closed() {
    let lib = ("lib", "mod a; mod b; mod c; pub use b::B;");
    assert_eq!(sample(&[lib, ("a", "use crate::b::B;"), ("b", "pub struct B;"), ("c", "")]), [""; 0]);
    assert_eq!(sample(&[lib, ("a", "use crate::b::B;"), ("b", "use crate::a::A;"), ("c", "")]), ["a, b"]);
    let by_way = [lib, ("a", "use crate::B;"), ("b", "fn f() { crate::c::g(); }"), ("c", "use super::a::A;")];
    assert_eq!(sample(&by_way), ["a, b, c"]);
    let parent = [("lib", "mod a;"), ("a", "mod x; use x::X; pub struct A;"), ("a/x", "use super::A;")];
    assert_eq!(sample(&parent), ["a, a/x"]);
    let in_macro = [lib, ("a", "fn f() { vec![crate::b::g()]; }"), ("b", "use crate::a::A;"), ("c", "")];
    assert_eq!(sample(&in_macro), ["a, b"]);
    let tests =
        [lib, ("a", "use crate::b::B;"), ("b", "#[cfg(test)] mod tests { use crate::a::A; }"), ("c", "")];
    assert_eq!(sample(&tests), [""; 0]);
}
