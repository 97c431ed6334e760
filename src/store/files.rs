//! Text files: read up to a bound, written whole or not at all.

use std::fs::{self, File, OpenOptions};
use std::io::{self, Read as _, Write as _};
use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};

/// Most that is read of a record or a journal, bytes. That of a long visit has some hundred thousand.
pub const SIZE_MAX_BYTES: u64 = 16 * 1024 * 1024;
/// Most that is read of a file that a person writes, a call or moves, bytes. It has a few thousand.
pub const WRITTEN_MAX_BYTES: u64 = 1024 * 1024;
/// Names that are tried before giving up: others may take the same at the same time.
const TRIES: u32 = 64;

/// Why a file can't be read or written.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum FileFault {
    /// What the system says, in its own words.
    System {
        /// Those words.
        said: String,
    },
    /// It is longer than is read.
    TooLong {
        /// What is read, bytes.
        most: u64,
    },
    /// It is no text in UTF-8.
    NoText,
}

impl From<io::Error> for FileFault {
    fn from(error: io::Error) -> FileFault {
        FileFault::System { said: error.to_string() }
    }
}

/// Text of a record or a journal, without a byte order mark.
///
/// # Errors
/// If it can't be read, is longer than [`SIZE_MAX_BYTES`] or not UTF-8.
pub fn read(path: &Path) -> Result<String, FileFault> {
    read_up_to(path, SIZE_MAX_BYTES)
}

/// Text of a file that a person wrote, without a byte order mark.
///
/// # Errors
/// If it can't be read, is longer than [`WRITTEN_MAX_BYTES`] or not UTF-8.
pub fn read_written(path: &Path) -> Result<String, FileFault> {
    read_up_to(path, WRITTEN_MAX_BYTES)
}

fn read_up_to(path: &Path, most: u64) -> Result<String, FileFault> {
    // What is no regular file tells no size: so it is read, and no further.
    let mut bytes = Vec::new();
    File::open(path)?.take(most + 1).read_to_end(&mut bytes)?;
    if bytes.len() as u64 > most {
        return Err(FileFault::TooLong { most });
    }
    let text = String::from_utf8(bytes).map_err(|_| FileFault::NoText)?;
    // Some editors put a byte order mark before it.
    Ok(text.strip_prefix('\u{feff}').map(str::to_owned).unwrap_or(text))
}

/// Writes a file whole or not at all: first beside it, down to the disk, then renamed. A full disk or a loss of power leaves
/// what was there. Behind a symbolic link the file is written that it points to.
///
/// # Errors
/// If it can't be written; nothing is left beside it then.
pub fn write_whole(path: &Path, text: &str) -> io::Result<()> {
    let path = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    // A pipe or a device has nothing beside it.
    if path.exists() && !path.is_file() {
        return fs::write(&path, text);
    }
    let mut beside = path.as_os_str().to_owned();
    beside.push(format!(".{}.part", std::process::id()));
    let beside = PathBuf::from(beside);
    let written = to_disk(&beside, text).and_then(|()| fs::rename(&beside, &path));
    if written.is_err() {
        // There may be nothing there; what failed is told.
        let _ = fs::remove_file(&beside);
        return written;
    }
    folder_to_disk(&path);
    Ok(())
}

/// Writes a new file whole or not at all, under the stem with its ending or with a number between. Two programs that do so at the same
/// time get two names: the name is taken before the text is written.
///
/// # Errors
/// If it can't be written; nothing is left of it then.
pub fn write_new(folder: &Path, stem: &str, ending: &str, text: &str) -> io::Result<PathBuf> {
    fs::create_dir_all(folder)?;
    let (path, file) = create_new(folder, stem, ending)?;
    drop(file);
    let written = write_whole(&path, text);
    if let Err(error) = written {
        let _ = fs::remove_file(&path);
        return Err(error);
    }
    Ok(path)
}

/// A new file that no one else has, to append to.
///
/// # Errors
/// If none can be made.
pub fn create_new(folder: &Path, stem: &str, ending: &str) -> io::Result<(PathBuf, File)> {
    let mut last = io::Error::from(io::ErrorKind::AlreadyExists);
    for _ in 0..TRIES {
        let path = free_name(folder, stem, ending);
        match OpenOptions::new().append(true).create_new(true).open(&path) {
            Ok(file) => return Ok((path, file)),
            // Someone else was quicker.
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists => last = error,
            Err(error) => return Err(error),
        }
    }
    Err(last)
}

fn to_disk(path: &Path, text: &str) -> io::Result<()> {
    let mut file = File::create(path)?;
    file.write_all(text.as_bytes())?;
    file.sync_all()
}

/// The name of a new file is in its folder, which some systems keep back too. Where a folder can't be opened as a file, as on Windows,
/// the system sees to it.
pub(crate) fn folder_to_disk(path: &Path) {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    if let Ok(folder) = File::open(folder) {
        let _ = folder.sync_all();
    }
}

/// A name in a folder that no file has yet: the stem with its ending, or with a number between.
pub fn free_name(folder: &Path, stem: &str, ending: &str) -> PathBuf {
    let first = folder.join(format!("{stem}{ending}"));
    // A link that leads nowhere is in the way too.
    let is_free = |path: &PathBuf| fs::symlink_metadata(path).is_err();
    if is_free(&first) {
        return first;
    }
    (2u32..).map(|number| folder.join(format!("{stem}-{number}{ending}"))).find(is_free).unwrap_or(first)
}
