//! The visits that come with the program, as tests/golden/digests.txt has them.

use std::fmt::Write as _;
use std::fs;
use std::path::Path;

use visit::Visit;

const SEEDS: [u64; 2] = [1, 2];

/// One line for each visit of a folder of moves files and each seed: its name, the seed, entries, digest of the notebook.
///
/// # Errors
/// A file that can't be read or is not valid, a visit of no built-in call, a plant that left the finite numbers.
pub fn golden(folder: &Path) -> Result<String, String> {
    let mut names = Vec::new();
    for file in fs::read_dir(folder).map_err(|error| format!("{}: {error}", folder.display()))? {
        let file = file.map_err(|error| format!("{}: {error}", folder.display()))?;
        names.push(file.file_name().to_string_lossy().into_owned());
    }
    names.sort();
    let wanted: Vec<(&String, u64)> = names.iter().flat_map(|name| SEEDS.map(|seed| (name, seed))).collect();
    let digests: Vec<Result<String, String>> = std::thread::scope(|scope| {
        let works: Vec<_> =
            wanted.iter().map(|(name, seed)| scope.spawn(|| digest(folder, name, *seed))).collect();
        works.into_iter().map(|work| work.join().unwrap_or_else(|_| Err("it panicked".to_owned()))).collect()
    });
    let mut text = String::new();
    for ((name, seed), digest) in wanted.iter().zip(digests) {
        let digest = digest.map_err(|why| format!("{name}, seed {seed}: {why}"))?;
        let _ = writeln!(text, "{} {seed} {digest}", name.trim_end_matches(".ron"));
    }
    Ok(text)
}

fn digest(folder: &Path, name: &str, seed: u64) -> Result<String, String> {
    let text = fs::read_to_string(folder.join(name)).map_err(|error| error.to_string())?;
    let moves = visit::read_moves(&text, name).map_err(|problems| format!("{problems:?}"))?;
    let (id, text) = call::built_in()
        .iter()
        .find(|(id, _)| name.starts_with(id))
        .ok_or_else(|| "it is of no built-in call".to_owned())?;
    let call = call::read(text, id).map_err(|problems| format!("{problems:?}"))?;
    let mut visit = Visit::start(&call, seed).map_err(|error| error.to_string())?;
    for action in &moves {
        visit.perform(action).map_err(|error| error.to_string())?;
    }
    Ok(format!("{} {}", visit.notebook().len(), visit.notebook_digest()))
}
