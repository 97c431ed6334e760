//! Visit records and pages of reviews on disk.

use std::fs;
use std::path::{Path, PathBuf};

use session::files;
use visit::Visit;

use crate::failure::{Failure, Written};

/// Endings of the files that are written.
pub const RECORD: &str = ".visit.ron";
const PAGE: &str = ".review.html";

/// Writes the record of a visit. To `previous` if the visit was saved before, else to a new file in `folder`.
pub fn save(visit: &Visit, folder: &Path, previous: Option<&Path>) -> Result<PathBuf, Failure> {
    let place = Place { folder, stem: stem(visit, None), ending: RECORD, previous };
    place.write(Written::Record, &visit.record().to_text())
}

/// Writes the page of a review. To `previous` if it was saved before, else to a new file in `folder`, named after the
/// visit record if that was saved.
pub fn save_page(
    page: &str,
    visit: &Visit,
    folder: &Path,
    record: Option<&Path>,
    previous: Option<&Path>,
) -> Result<PathBuf, Failure> {
    Place { folder, stem: stem(visit, record), ending: PAGE, previous }.write(Written::Page, page)
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
    fn write(&self, what: Written, text: &str) -> Result<PathBuf, Failure> {
        let failed = |path: &Path, reason: std::io::Error| Failure::not_written(what, path, reason);
        fs::create_dir_all(self.folder).map_err(|reason| failed(self.folder, reason))?;
        let path = self
            .previous
            .map_or_else(|| files::free_name(self.folder, &self.stem, self.ending), Path::to_owned);
        files::write_whole(&path, text).map_err(|reason| failed(&path, reason))?;
        Ok(path)
    }
}

/// Text of a file.
pub fn read(path: &Path) -> Result<String, Failure> {
    files::read(path).map_err(|reason| Failure::NotRead(path.display().to_string(), reason))
}
