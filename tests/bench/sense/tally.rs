//! Counting breaches by bound, by kind of fault and by system.

use std::collections::BTreeMap;
use std::fmt;

use serde_json::{Map, Value, json};

use super::bounds::{BOUNDS, Bound};
use super::case::Case;
use super::live::Breach;

/// How many cases of a bound are shown.
const SHOWN: usize = 5;

/// What a run of cases came to.
#[derive(Clone, Debug, Default)]
pub struct Tally {
    cases: u64,
    broken: u64,
    found: Vec<(Case, Breach)>,
    /// Cases and broken ones, by kind (both kinds of a pair) and by system.
    kinds: BTreeMap<String, (u64, u64)>,
    systems: BTreeMap<&'static str, (u64, u64)>,
}

impl Tally {
    /// Counts one case.
    pub fn count(&mut self, case: &Case, breaches: &[Breach]) {
        let broken = u64::from(!breaches.is_empty());
        self.cases += 1;
        self.broken += broken;
        let mut kinds: Vec<String> =
            case.faults.iter().map(|one| format!("{:?}", one.suspect.kind)).collect();
        if kinds.is_empty() {
            kinds.push("none".to_owned());
        }
        kinds.dedup();
        for kind in kinds {
            let counts = self.kinds.entry(kind).or_default();
            *counts = (counts.0 + 1, counts.1 + broken);
        }
        let counts = self.systems.entry(case.system).or_default();
        *counts = (counts.0 + 1, counts.1 + broken);
        self.found.extend(breaches.iter().map(|breach| (case.clone(), *breach)));
    }

    /// The worst of each bound first: the same order on any number of threads.
    pub(super) fn sort(&mut self) {
        self.found.sort_by(|(case_a, a), (case_b, b)| {
            (a.bound.cmp(&b.bound))
                .then(b.by.total_cmp(&a.by))
                .then_with(|| case_a.to_string().cmp(&case_b.to_string()))
        });
    }

    /// How many cases passed a bound.
    #[must_use]
    pub fn broken(&self) -> u64 {
        self.broken
    }

    /// The breaches of each bound that has any.
    fn by_bound(&self) -> impl Iterator<Item = (usize, Vec<&(Case, Breach)>)> {
        (0..BOUNDS.len()).filter_map(|bound| {
            let those: Vec<_> = self.found.iter().filter(|(_, breach)| breach.bound == bound).collect();
            (!those.is_empty()).then_some((bound, those))
        })
    }

    /// For programs; readings in SI.
    #[must_use]
    pub fn to_json(&self) -> Value {
        let counts = |(cases, broken): &(u64, u64)| json!({ "cases": cases, "broken": broken });
        let bounds: Vec<Value> = self
            .by_bound()
            .map(|(bound, those)| {
                json!({
                    "bound": BOUNDS[bound].name,
                    "source": BOUNDS[bound].source,
                    "allowed_minutes": BOUNDS[bound].allowed_minutes,
                    "count": those.len(),
                    "cases": those.iter().map(|(case, breach)| json!({
                        "command": case.to_string(),
                        "first_s": breach.first_s,
                        "worst": breach.worst.value(),
                        "worst_text": breach.worst.to_string(),
                        "beyond": breach.by,
                    })).collect::<Vec<Value>>(),
                })
            })
            .collect();
        json!({
            "cases": self.cases,
            "broken": self.broken,
            "bounds": bounds,
            "kinds": self.kinds.iter().map(|(kind, c)| (kind.clone(), counts(c))).collect::<Map<_, _>>(),
            "systems": self.systems.iter().map(|(name, c)| ((*name).to_owned(), counts(c))).collect::<Map<_, _>>(),
        })
    }
}

impl fmt::Display for Tally {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(f, "{} cases, {} with a reading that no equipment shows", self.cases, self.broken)?;
        for (bound, those) in self.by_bound() {
            let Bound { name, source, allowed_minutes, .. } = &BOUNDS[bound];
            writeln!(f, "\n{name}, for more than {allowed_minutes} min: {} cases\n  {source}", those.len())?;
            for (case, breach) in those.iter().take(SHOWN) {
                writeln!(
                    f,
                    "  {:>24} from {:4.0} min on: {case}",
                    breach.worst.to_string(),
                    breach.first_s / 60.0
                )?;
            }
        }
        writeln!(f, "\nby kind of fault (broken of cases)")?;
        for (kind, (cases, broken)) in &self.kinds {
            writeln!(f, "  {kind:28} {broken:6} {cases:6}")?;
        }
        writeln!(f, "\nby system")?;
        for (system, (cases, broken)) in &self.systems {
            writeln!(f, "  {system:40} {broken:6} {cases:6}")?;
        }
        Ok(())
    }
}
