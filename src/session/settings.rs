//! What a person has set, kept in a file of its own, and where the program keeps its files.

use std::path::{Path, PathBuf};

use directories::ProjectDirs;
use ron_file::{Manner, Mistake, Reading};
use serde::{Deserialize, Serialize};
use words::Units;

use crate::command::Speed;
use crate::failure::Failure;
use store::files;

/// Name of the program's folders.
const PROGRAM: &str = "rimebench";
/// Name of the settings file.
const FILE: &str = "settings.ron";
/// Name of the folder for records, if nothing else is set.
const RECORDS: &str = "records";

/// What a person has set. A file may leave out what stays as it comes.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Settings {
    /// Units on display.
    pub units: Units,
    /// How fast the clock runs when a visit begins.
    pub speed: Speed,
    /// Folder for records; the program's own if none is named. A path that is not absolute lies in the program's folder.
    pub records: Option<PathBuf>,
}

/// Where settings and records lie.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Store {
    /// Folder of the settings file.
    settings: PathBuf,
    /// Folder in which the one for records lies.
    data: PathBuf,
}

impl Store {
    /// Where the system wants a program's files; a program that is started from a menu stands in no folder of its own. Where the system
    /// knows no such place: the current folder.
    pub fn of_the_system() -> Store {
        match ProjectDirs::from("", "", PROGRAM) {
            Some(places) => {
                Store { settings: places.config_dir().to_owned(), data: places.data_dir().to_owned() }
            }
            None => Store::in_folder(Path::new(".")),
        }
    }

    /// Everything in one folder.
    pub fn in_folder(folder: &Path) -> Store {
        Store { settings: folder.to_owned(), data: folder.to_owned() }
    }

    /// Where the settings lie.
    pub fn file(&self) -> PathBuf {
        self.settings.join(FILE)
    }

    /// Folder for records.
    pub fn records(&self, settings: &Settings) -> PathBuf {
        self.data.join(settings.records.as_deref().unwrap_or(Path::new(RECORDS)))
    }

    /// What was kept; as it comes if nothing was.
    ///
    /// # Errors
    /// If there is a file and it can't be read.
    pub fn read(&self) -> Result<Settings, Failure> {
        let path = self.file();
        if !path.exists() {
            return Ok(Settings::default());
        }
        let shown = path.display().to_string();
        let text = files::read_written(&path).map_err(|why| Failure::SettingsNotRead(shown.clone(), why))?;
        let mut reading = Reading::<Mistake>::new(&text);
        let settings = reading.value::<Settings>(&Manner { examples: &[], old_names: &[] });
        match (settings, reading.finish(&shown)) {
            (Some(settings), Ok(_)) => Ok(settings),
            (_, Err(problems)) => Err(Failure::SettingsMistaken(problems)),
            (None, Ok(_)) => Ok(Settings::default()),
        }
    }

    /// Keeps them.
    ///
    /// # Errors
    /// If the file can't be written.
    pub fn write(&self, settings: &Settings) -> Result<(), Failure> {
        let path = self.file();
        let failed =
            |reason: std::io::Error| Failure::SettingsNotWritten(path.display().to_string(), reason.into());
        std::fs::create_dir_all(&self.settings).map_err(failed)?;
        files::write_whole(&path, &ron_file::write(settings, usize::MAX)).map_err(failed)
    }
}
