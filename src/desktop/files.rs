//! Visit records and pages of reviews on disk.

use std::fs;
use std::io::Read as _;
use std::path::{Path, PathBuf};

use visit::Visit;

/// Endings of the files that are written.
const RECORD: &str = ".visit.ron";
const PAGE: &str = ".review.html";

/// Writes the record of a visit. To `previous` if the visit was saved before, else to a new file in `folder`.
pub fn save(visit: &Visit, folder: &Path, previous: Option<&Path>) -> Result<PathBuf, String> {
    let place = Place { folder, stem: stem(visit, None), ending: RECORD, previous };
    place.write("visit record", &visit.record().to_text())
}

/// Writes the page of a review. To `previous` if it was saved before, else to a new file in `folder`, named after the
/// visit record if that was saved.
pub fn save_page(
    page: &str,
    visit: &Visit,
    folder: &Path,
    record: Option<&Path>,
    previous: Option<&Path>,
) -> Result<PathBuf, String> {
    Place { folder, stem: stem(visit, record), ending: PAGE, previous }.write("page", page)
}

fn stem(visit: &Visit, record: Option<&Path>) -> String {
    record
        .and_then(|path| path.file_name()?.to_str()?.strip_suffix(RECORD))
        .map_or_else(|| format!("{}-seed{}", visit.call().id, visit.seed()), str::to_owned)
}

/// Where a file goes.
struct Place<'a> {
    folder: &'a Path,
    stem: String,
    ending: &'static str,
    previous: Option<&'a Path>,
}

impl Place<'_> {
    fn write(&self, what: &str, text: &str) -> Result<PathBuf, String> {
        let told = |path: &Path, reason: std::io::Error| {
            format!("The {what} could not be written to {}: {reason}.", path.display())
        };
        fs::create_dir_all(self.folder).map_err(|reason| told(self.folder, reason))?;
        let path = self.previous.map_or_else(|| self.free_name(), Path::to_owned);
        // First beside it, then renamed: a full disk never leaves half a file.
        let beside = path.with_extension("part");
        fs::write(&beside, text).map_err(|reason| told(&beside, reason))?;
        fs::rename(&beside, &path).map_err(|reason| told(&path, reason))?;
        Ok(path)
    }

    fn free_name(&self) -> PathBuf {
        let first = self.folder.join(format!("{}{}", self.stem, self.ending));
        if !first.exists() {
            return first;
        }
        (2u32..)
            .map(|number| self.folder.join(format!("{}-{number}{}", self.stem, self.ending)))
            .find(|path| !path.exists())
            .unwrap_or(first)
    }
}

/// Most that is read of a file, bytes: no record comes near it.
const SIZE_MAX_BYTES: u64 = 16 * 1024 * 1024;

/// Text of a file, or what to tell the person.
pub fn read(path: &Path) -> Result<String, Vec<String>> {
    let read = || {
        let mut text = String::new();
        let read_bytes = fs::File::open(path)?.take(SIZE_MAX_BYTES + 1).read_to_string(&mut text)?;
        if read_bytes as u64 > SIZE_MAX_BYTES {
            return Err(std::io::Error::other(format!("more than {SIZE_MAX_BYTES} bytes are too many")));
        }
        Ok(text)
    };
    read().map_err(|reason| {
        vec![
            format!("{} could not be read: {reason}.", path.display()),
            "Give the path as the terminal would take it; a path without a folder is looked for in the current folder."
                .to_owned(),
        ]
    })
}
