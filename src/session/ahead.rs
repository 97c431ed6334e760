//! A record whose path stands on the start screen: the work on it begins before it is asked for.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use judge::Arrivals;

use crate::job::Job;
use crate::time::{Clock, FileState};

/// Work on a record that will most likely be opened. It stops soon after this is dropped.
pub(crate) struct Ahead {
    path: PathBuf,
    /// What the file was when the work began.
    file: FileState,
    job: Job,
}

impl Ahead {
    /// Begins, if there is such a file.
    pub(crate) fn of(path: PathBuf, arrivals: &Arc<Arrivals>, clock: &Arc<dyn Clock>) -> Option<Ahead> {
        let file = FileState::of(&path)?;
        let job = Job::open(path.clone(), None, Arc::clone(arrivals), clock);
        Some(Ahead { path, file, job })
    }

    /// The work, now that a record is asked for; `None` if it is another one, or was written over meanwhile.
    pub(crate) fn asked_for(self, path: &Path) -> Option<Job> {
        let is_it = self.path == path && FileState::of(path) == Some(self.file);
        is_it.then(|| self.job.asked_for())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::brought::Outcome;
    use crate::time::HandClock;

    #[test]
    fn the_work_goes_on_for_the_same_file_only() {
        let path = std::env::temp_dir().join(format!("rimebench-ahead-{}.ron", std::process::id()));
        std::fs::write(&path, "no record").expect("written");
        let clock: Arc<dyn Clock> = Arc::new(HandClock::default());
        let ahead = |path: &Path| Ahead::of(path.to_owned(), &Arc::default(), &clock);
        assert!(ahead(&path.with_extension("no")).is_none(), "there is no such file");
        let job = ahead(&path).expect("begun").asked_for(&path).expect("the same file");
        assert!(matches!(job.wait(), Outcome::Failed(_)));
        assert!(ahead(&path).expect("begun").asked_for(Path::new("another")).is_none());
        let begun = ahead(&path).expect("begun");
        std::fs::write(&path, "another text").expect("written");
        assert!(begun.asked_for(&path).is_none(), "it was written over");
        std::fs::remove_file(path).expect("removed");
    }
}
