//! Names of older files.

/// Keys and variants of older calls, moves files and records with their names of today, which they are read as.
pub const OLD_NAMES: &[(&str, &str)] = &[("Mend", "Repair")];
