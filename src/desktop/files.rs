//! Visit records on disk.

use std::fs;
use std::path::{Path, PathBuf};

use visit::Visit;

/// Writes the record of a visit. To `previous` if the visit was saved before, else to a new file in `folder`.
pub fn save(visit: &Visit, folder: &Path, previous: Option<&Path>) -> Result<PathBuf, String> {
    let told = |path: &Path, reason: std::io::Error| {
        format!("The visit record could not be written to {}: {reason}.", path.display())
    };
    fs::create_dir_all(folder).map_err(|reason| told(folder, reason))?;
    let path = match previous {
        Some(path) => path.to_owned(),
        None => free_name(folder, &format!("{}-seed{}", visit.call().id, visit.seed())),
    };
    // First beside it, then renamed: a full disk never leaves half a record.
    let beside = path.with_extension("part");
    fs::write(&beside, visit.record().to_text()).map_err(|reason| told(&beside, reason))?;
    fs::rename(&beside, &path).map_err(|reason| told(&path, reason))?;
    Ok(path)
}

fn free_name(folder: &Path, stem: &str) -> PathBuf {
    let first = folder.join(format!("{stem}.visit.ron"));
    if !first.exists() {
        return first;
    }
    (2u32..)
        .map(|number| folder.join(format!("{stem}-{number}.visit.ron")))
        .find(|path| !path.exists())
        .unwrap_or(first)
}

/// Text of a file, or what to tell the person.
pub fn read(path: &Path) -> Result<String, Vec<String>> {
    fs::read_to_string(path).map_err(|reason| {
        vec![
            format!("{} could not be read: {reason}.", path.display()),
            "Give the path as the terminal would take it; a path without a folder is looked for in the current folder."
                .to_owned(),
        ]
    })
}
