//! Visit records and pages of reviews on disk.

use std::path::{Path, PathBuf};

use visit::Visit;

use crate::failure::{Failure, Written};
use store::files;

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
        match self.previous {
            Some(path) => files::write_whole(path, text)
                .map(|()| path.to_owned())
                .map_err(|reason| Failure::not_written(what, path, reason)),
            None => files::write_new(self.folder, &self.stem, self.ending, text)
                .map_err(|reason| Failure::not_written(what, self.folder, reason)),
        }
    }
}
