//! A record whose path stands on the start screen: the work on it begins before it is asked for.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::SystemTime;

use judge::Arrivals;

use crate::job::Job;

/// Work on a record that will most likely be opened. It stops soon after this is dropped.
pub(crate) struct Ahead {
    path: PathBuf,
    /// What the file was when the work began.
    file: FileState,
    job: Job,
}

/// When a file was changed, and its length.
type FileState = (SystemTime, u64);

fn state_of(path: &Path) -> Option<FileState> {
    let file = fs::metadata(path).ok().filter(fs::Metadata::is_file)?;
    Some((file.modified().ok()?, file.len()))
}

impl Ahead {
    /// Begins, if there is such a file.
    pub(crate) fn of(path: PathBuf, arrivals: &Arc<Arrivals>) -> Option<Ahead> {
        let file = state_of(&path)?;
        let job = Job::open(path.clone(), None, Arc::clone(arrivals));
        Some(Ahead { path, file, job })
    }

    /// The work, now that a record is asked for; `None` if it is another one, or was written over meanwhile.
    pub(crate) fn asked_for(self, path: &Path) -> Option<Job> {
        let is_it = self.path == path && state_of(path) == Some(self.file);
        is_it.then(|| self.job.asked_for())
    }

    #[cfg(test)]
    pub(crate) fn job(&self) -> &Job {
        &self.job
    }
}
