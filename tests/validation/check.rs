//! One published value against ours.

use crate::picture::Chart;

/// What the source says.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Published {
    /// A value and how far off ours may be.
    Near {
        /// The value.
        value: f64,
        /// Largest allowed distance.
        band: f64,
    },
    /// A range.
    Between {
        /// Least.
        low: f64,
        /// Most.
        high: f64,
    },
    /// No less than this.
    AtLeast(f64),
    /// No more than this.
    AtMost(f64),
    /// The quantity rises.
    Rises,
    /// The quantity falls.
    Falls,
}

/// A disagreement that is known: where ours lies, and why.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Known {
    /// Least value of ours that was seen, with some room.
    pub low: f64,
    /// Most.
    pub high: f64,
    /// What is known of the cause.
    pub why: &'static str,
}

/// What a check speaks for, and with that where it is counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// What the plant does: counted among the compared.
    Plant,
    /// A table, a data file or a formula that stands in the program as it was published: counted apart, since it shows
    /// that a number was copied rightly and nothing about the plant.
    Table,
    /// A value that tuned this parameter: shown, counted for nothing. What proves the parameter instead: [`crate::tuned`].
    Tuned(&'static str),
}

/// A published value and ours.
#[derive(Clone, Debug, PartialEq)]
pub struct Check {
    /// What is compared, with the conditions.
    pub what: String,
    /// Unit, empty for a ratio.
    pub unit: &'static str,
    /// Digits after the point.
    pub decimals: usize,
    /// The source's.
    pub published: Published,
    /// Ours.
    pub ours: f64,
    /// Set where the two do not agree.
    pub known: Option<Known>,
    /// What it speaks for.
    pub kind: Kind,
}

/// Changes smaller than this have no sign.
const NO_CHANGE: f64 = 0.02;

impl Check {
    /// A ratio to the healthy or rated system, with a band.
    pub fn ratio(what: impl Into<String>, value: f64, band: f64, ours: f64) -> Check {
        Check::new(what, "", 3, Published::Near { value, band }, ours)
    }

    /// Any check.
    pub fn new(
        what: impl Into<String>,
        unit: &'static str,
        decimals: usize,
        published: Published,
        ours: f64,
    ) -> Check {
        Check { what: what.into(), unit, decimals, published, ours, known: None, kind: Kind::Plant }
    }

    /// Mark as a check of a table, a data file or a formula.
    pub fn of_table(mut self) -> Check {
        self.kind = Kind::Table;
        self
    }

    /// Mark as data that tuned a parameter.
    pub fn tuned(mut self, parameter: &'static str) -> Check {
        self.kind = Kind::Tuned(parameter);
        self
    }

    /// Mark as a known disagreement.
    pub fn known(mut self, low: f64, high: f64, why: &'static str) -> Check {
        self.known = Some(Known { low, high, why });
        self
    }

    /// Whether ours lies where the source says.
    pub fn agrees(&self) -> bool {
        match self.published {
            Published::Near { value, band } => (self.ours - value).abs() <= band,
            Published::Between { low, high } => (low..=high).contains(&self.ours),
            Published::AtLeast(low) => self.ours >= low,
            Published::AtMost(high) => self.ours <= high,
            Published::Rises => self.ours > NO_CHANGE,
            Published::Falls => self.ours < -NO_CHANGE,
        }
    }

    /// What is wrong, if anything: a check that ought to agree and does not, or a known disagreement that is no longer
    /// what it was (then the mark is to be taken away or looked at anew).
    pub fn complaint(&self) -> Option<String> {
        let line = format!("{}: published {}, ours {}", self.what, self.published_text(), self.ours);
        match self.known {
            None if self.agrees() => None,
            None => Some(line),
            Some(_) if self.agrees() => Some(format!("{line}: marked as a disagreement, but agrees now")),
            Some(known) if (known.low..=known.high).contains(&self.ours) => None,
            Some(known) => Some(format!("{line}: was known between {} and {}", known.low, known.high)),
        }
    }

    /// The source's value as written in a table.
    pub fn published_text(&self) -> String {
        let d = self.decimals;
        match self.published {
            Published::Near { value, .. } => format!("{value:.d$}"),
            Published::Between { low, high } => format!("{low:.d$} to {high:.d$}"),
            Published::AtLeast(low) => format!("at least {low:.d$}"),
            Published::AtMost(high) => format!("at most {high:.d$}"),
            Published::Rises => "rises".to_owned(),
            Published::Falls => "falls".to_owned(),
        }
    }

    fn band_text(&self) -> String {
        match self.published {
            Published::Near { band, .. } => format!("±{}", plain(band, self.decimals)),
            Published::Between { .. } => "range".to_owned(),
            Published::AtLeast(_) | Published::AtMost(_) => "bound".to_owned(),
            Published::Rises | Published::Falls => "sign".to_owned(),
        }
    }

    fn verdict(&self) -> &'static str {
        match (self.kind, self.agrees()) {
            (Kind::Plant, true) => "yes",
            (Kind::Plant, false) => "**no**",
            (Kind::Table, true) => "yes, table",
            (Kind::Table, false) => "**no**, table",
            (Kind::Tuned(_), true) => "tuned",
            (Kind::Tuned(_), false) => "tuned, **no longer**",
        }
    }

    /// A row of a table.
    pub fn row(&self) -> String {
        let d = self.decimals;
        let unit = if self.unit.is_empty() { String::new() } else { format!(" {}", self.unit) };
        let verdict = self.verdict();
        format!(
            "| {} | {}{unit} | {} | {:.d$}{unit} | {verdict} |",
            self.what,
            self.published_text(),
            self.band_text(),
            self.ours,
        )
    }
}

/// No more digits than the value and one, none that are zero at the end.
fn plain(value: f64, decimals: usize) -> String {
    let text = format!("{value:.*}", decimals + 1);
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// How the checks of a topic are printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Print {
    /// One row each.
    Rows,
    /// Only in tables that the topic writes itself.
    OwnTables,
}

/// Everything about one subject.
#[derive(Clone, Debug)]
pub struct Topic {
    /// Name of the block in the document.
    pub name: &'static str,
    /// Where the published values come from.
    pub source: &'static str,
    /// The checks.
    pub checks: Vec<Check>,
    /// How they are printed.
    pub print: Print,
    /// Further tables, in Markdown.
    pub tables: String,
    /// Pictures.
    pub charts: Vec<Chart>,
}

/// How many values of each kind were compared, and how many of them agree.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Counts {
    /// Values of the plant.
    pub plant: usize,
    /// Those that agree.
    pub plant_agree: usize,
    /// Values of tables, data files and formulas.
    pub table: usize,
    /// Those that agree.
    pub table_agree: usize,
    /// Values that tuned a parameter.
    pub tuned: usize,
}

impl Counts {
    /// Count some checks.
    pub fn of<'a>(checks: impl IntoIterator<Item = &'a Check>) -> Counts {
        let mut counts = Counts::default();
        for check in checks {
            let agrees = usize::from(check.agrees());
            match check.kind {
                Kind::Plant => {
                    counts.plant += 1;
                    counts.plant_agree += agrees;
                }
                Kind::Table => {
                    counts.table += 1;
                    counts.table_agree += agrees;
                }
                Kind::Tuned(_) => counts.tuned += 1,
            }
        }
        counts
    }
}

impl Topic {
    /// The block of the document.
    pub fn markdown(&self) -> String {
        let mut text = format!("{}\n", self.source);
        if self.print == Print::Rows && !self.checks.is_empty() {
            text += "\n| what | published | band | ours | agrees |\n|---|---|---|---|---|\n";
            for check in &self.checks {
                text += &check.row();
                text.push('\n');
            }
        }
        if !self.tables.is_empty() {
            text += &format!("\n{}\n", self.tables.trim_end());
        }
        let mut reasons: Vec<&str> = Vec::new();
        for why in self.checks.iter().filter_map(|c| c.known.map(|k| k.why)) {
            if !reasons.contains(&why) {
                reasons.push(why);
            }
        }
        if !reasons.is_empty() {
            text += "\nWhere it disagrees:\n\n";
            for reason in reasons {
                text += &format!("- {reason}\n");
            }
        }
        for chart in &self.charts {
            text += &format!("\n![{}](images/validation/{}.svg)\n", chart.title, chart.file);
        }
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Data that tuned a parameter and copies of tables never swell the number of what the plant is held against.
    #[test]
    fn tuned_values_and_tables_are_never_counted_as_the_plants() {
        let good = || Check::ratio("a", 1.0, 0.05, 1.0);
        let bad = || Check::ratio("a", 1.0, 0.05, 2.0);
        let checks = [
            good(),
            bad(),
            good().of_table(),
            bad().of_table(),
            good().of_table(),
            good().tuned("p"),
            bad().tuned("p"),
        ];
        let counts = Counts::of(&checks);
        assert_eq!((counts.plant, counts.plant_agree), (2, 1));
        assert_eq!((counts.table, counts.table_agree), (3, 2));
        assert_eq!(counts.tuned, 2);
        assert!(checks[5].row().ends_with("| tuned |") && checks[6].row().contains("no longer"));
        assert!(checks[6].complaint().is_some(), "a tuned value that has gone astray is still told of");
    }

    #[test]
    fn a_check_can_fail_each_way() {
        let good = Check::ratio("a", 1.0, 0.05, 1.04);
        assert!(good.agrees() && good.complaint().is_none());
        let bad = Check::ratio("a", 1.0, 0.05, 1.06);
        assert!(!bad.agrees() && bad.complaint().is_some());
        let seen = bad.clone().known(1.05, 1.07, "reason");
        assert!(!seen.agrees() && seen.complaint().is_none());
        assert!(bad.known(1.07, 1.09, "reason").complaint().is_some());
        assert!(good.known(1.0, 1.1, "reason").complaint().is_some());
        let up = |ours| Check::new("a", "K", 1, Published::Rises, ours).agrees();
        assert!(up(0.5) && !up(0.0) && !up(-0.5));
        let bound = |published, ours| Check::new("a", "", 1, published, ours).agrees();
        assert!(bound(Published::AtLeast(1.0), 1.0) && !bound(Published::AtLeast(1.0), 0.9));
        assert!(bound(Published::AtMost(1.0), 1.0) && !bound(Published::AtMost(1.0), 1.1));
        assert!(!bound(Published::AtMost(1.0), f64::NAN) && !bound(Published::AtLeast(1.0), f64::NAN));
        let within = |ours| Check::new("a", "", 1, Published::Between { low: 1.0, high: 2.0 }, ours).agrees();
        assert!(within(1.0) && !within(2.1) && !within(0.9));
    }
}
