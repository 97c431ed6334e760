//! The clock on the wall, as a value that is handed in: the only file here that asks the system for the time.

use std::fs;
use std::path::Path;
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::{Instant, SystemTime};

/// A clock that never goes back.
pub trait Clock: Send + Sync {
    /// Real time since some instant, s.
    fn now_s(&self) -> f64;
}

/// The system's clock.
#[derive(Clone, Copy, Debug)]
pub struct WallClock {
    began: Instant,
}

impl Default for WallClock {
    fn default() -> Self {
        WallClock { began: Instant::now() }
    }
}

impl Clock for WallClock {
    fn now_s(&self) -> f64 {
        self.began.elapsed().as_secs_f64()
    }
}

/// A clock that stands until it is moved on.
#[derive(Debug, Default)]
pub struct HandClock {
    now_bits: AtomicU64,
}

impl HandClock {
    /// Moves it on, s.
    pub fn pass(&self, seconds: f64) {
        self.now_bits.store((self.now_s() + seconds).to_bits(), Ordering::Relaxed);
    }
}

impl Clock for HandClock {
    fn now_s(&self) -> f64 {
        f64::from_bits(self.now_bits.load(Ordering::Relaxed))
    }
}

/// When a file was changed, and its length: another one is another file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct FileState(SystemTime, u64);

impl FileState {
    /// Of a file that is there.
    pub(crate) fn of(path: &Path) -> Option<FileState> {
        let file = fs::metadata(path).ok().filter(fs::Metadata::is_file)?;
        Some(FileState(file.modified().ok()?, file.len()))
    }
}
