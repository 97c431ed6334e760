//! Checks of the property tables and moist-air functions against reference libraries. Never part of the shipped
//! program.
//!
//! The references are Python packages, because the Rust crate that carries `CoolProp` ready built needs a newer C
//! library than many machines have. So that the tests need nothing but Rust, what the references say is committed
//! beside them:
//!
//! | file | written by | from |
//! |---|---|---|
//! | `src/media/data/*.tab` | `make_tables.py` | `CoolProp` 8.0.0 (Bell et al. 2014, doi 10.1021/ie4033999) |
//! | `data/coolprop_*.csv` | `make_checks.py` | `CoolProp` 8.0.0 |
//! | `data/psychrolib.csv` | `make_checks.py` | `PsychroLib` 2.5.0 |
//!
//! To make them again, in this folder (the same bytes must come out; `--check` compares without writing):
//!
//! ```text
//! python3 -m venv venv && venv/bin/pip install -r requirements.txt
//! venv/bin/python make_tables.py --check
//! venv/bin/python make_tables.py && venv/bin/python make_checks.py
//! ```
//!
//! Another refrigerant is another entry of `RECIPES` in `make_tables.py`, of `DRAWS` in `make_checks.py`, and of the
//! catalogue in `src/media/refrigerant/catalogue.rs`. `reference.py` asks `CoolProp` for states of one equation of state;
//! `blend.py` solves the equilibrium of a blend of two, where `CoolProp`'s own search often fails.
//! To see the errors measured: `cargo test -p oracle -- --nocapture`.

use std::collections::BTreeMap;

/// The rows of a committed file of reference values: column name to value.
///
/// Lines that begin with `#` say where the values come from and are skipped.
///
/// # Panics
/// When the file is not a table of numbers: it is committed, so this is a defect of the repository.
#[must_use]
pub fn rows(text: &str) -> Vec<BTreeMap<&str, f64>> {
    let mut lines = text.lines().filter(|line| !line.starts_with('#'));
    let names: Vec<&str> = lines.next().expect("a line of column names").split(',').collect();
    lines
        .map(|line| {
            let values: Vec<f64> = line.split(',').map(|value| value.parse().expect("a number")).collect();
            assert_eq!(values.len(), names.len(), "columns in: {line}");
            names.iter().copied().zip(values).collect()
        })
        .collect()
}
