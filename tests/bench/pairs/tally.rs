//! Counting cases.

use std::collections::BTreeMap;
use std::fmt;

use super::case::{Case, Hypothesis, every_pair};
use super::laws::Extremes;
use super::live::{Broken, Lived};

/// What a run of cases came to.
#[derive(Clone, Debug, Default)]
pub struct Tally {
    lived: u64,
    broken: Vec<(u64, String)>,
    moves: u64,
    plant_s: f64,
    replays: u64,
    systems: BTreeMap<&'static str, (u64, u64)>,
    pairs: BTreeMap<(Hypothesis, Hypothesis), BTreeMap<&'static str, u64>>,
    extremes: Extremes,
}

impl Tally {
    /// Counts one case.
    pub fn count(&mut self, case: &Case, result: &Result<Lived, Box<Broken>>) {
        let (runs, failures) = self.systems.entry(case.system).or_default();
        *runs += 1;
        *self.pairs.entry(case.pair).or_default().entry(case.system).or_default() += 1;
        match result {
            Ok(lived) => {
                self.lived += 1;
                self.moves += lived.moves;
                self.plant_s += lived.plant_s;
                self.replays += lived.replays;
                self.extremes.merge(&lived.extremes);
            }
            Err(broken) => {
                *failures += 1;
                self.broken.push((case.number, broken.why.clone()));
            }
        }
    }

    /// Cases that broke no law.
    #[must_use]
    pub fn lived(&self) -> u64 {
        self.lived
    }

    /// Cases that broke one, with what it was.
    #[must_use]
    pub fn broken(&self) -> &[(u64, String)] {
        &self.broken
    }
}

impl fmt::Display for Tally {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let cases = self.lived + self.broken.len() as u64;
        writeln!(f, "cases                  {cases}")?;
        writeln!(f, "broken                 {}", self.broken.len())?;
        writeln!(f, "moves                  {}", self.moves)?;
        writeln!(f, "plant days             {:.1}", self.plant_s / 86_400.0)?;
        writeln!(f, "records made again     {}", self.replays)?;
        let every = every_pair();
        let fewest = every
            .iter()
            .map(|pair| self.pairs.get(pair).map_or(0, |systems| systems.values().sum::<u64>()))
            .min()
            .unwrap_or(0);
        let kinds: std::collections::BTreeSet<_> =
            self.pairs.keys().map(|(first, second)| (first.kind, second.kind)).collect();
        writeln!(
            f,
            "pairs of faults        {} of {} (places told apart; {} pairs of kinds), each at least {fewest} times",
            self.pairs.len(),
            every.len(),
            kinds.len()
        )?;
        let combinations: usize = self.pairs.values().map(BTreeMap::len).sum();
        writeln!(f, "pairs and systems      {combinations} different combinations")?;
        writeln!(f, "\nsystem                                    cases  broken")?;
        for (system, (runs, failures)) in &self.systems {
            writeln!(f, "{system:40} {runs:>6} {failures:>7}")?;
        }
        writeln!(f, "\nlargest over all cases                          value    case")?;
        for extreme in self.extremes.list() {
            let shown = if extreme.value.abs() < 1.0e-3 {
                format!("{:.2e}", extreme.value)
            } else {
                format!("{:.3}", extreme.value)
            };
            writeln!(f, "{:40} {shown:>12} {:>7}", extreme.name, extreme.case)?;
        }
        for (case, why) in &self.broken {
            let short: String = why.chars().take(300).collect();
            writeln!(f, "\nbroken: case {case}: {short}")?;
        }
        Ok(())
    }
}
