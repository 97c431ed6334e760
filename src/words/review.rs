//! Marks and probabilities in words.

use call::Call;
use judge::Reason;

use crate::Words;
use crate::quantity::{Kind, percent};

impl Words {
    /// Why points were earned or lost, as sentences that stand alone; with what the call says of the rule that was broken.
    pub fn reason(&self, reason: &Reason, call: &Call) -> String {
        let told = self.heading(reason);
        match reason.rule_of(call) {
            Some(why) => format!("{told} {}", self.own(why)),
            None => told,
        }
    }

    /// A probability, 0 to 1; never 0 or 100 % for what is not.
    pub fn probability(&self, probability: f64) -> String {
        let in_percent = 100.0 * probability;
        if in_percent >= 99.95 {
            self.fill("probability-near-one", &[("limit", percent(0.999, 1))])
        } else if in_percent < 0.1 {
            self.fill("probability-near-none", &[("limit", percent(0.001, 1))])
        } else if (9.95..99.0).contains(&in_percent) {
            percent(probability, 0)
        } else {
            percent(probability, 1)
        }
    }

    /// A quantity of a kind, in SI.
    pub(crate) fn quantity(&self, kind: Kind, value: f64) -> String {
        match kind {
            Kind::Probability => self.probability(value),
            other => self.units.text(other, value),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Units;
    use call::Milestone;
    use diagnosis::{Cause, Hypothesis};
    use judge::{Doubtful, NoEvidence, Standing, Useless};
    use plant::{FaultKind, LeakPlace};
    use report::{Effect, RowOf, Shift, Shifts, WrongThing};
    use visit::Trust;

    fn call() -> Call {
        let built_in = call::built_in().first().expect("there are built-in calls");
        call::read(built_in.1, built_in.0).expect("they are valid")
    }

    fn told(reason: &Reason) -> String {
        Words::default().reason(reason, &call()).replace('\u{a0}', " ")
    }

    fn leak() -> Hypothesis {
        Hypothesis::single(FaultKind::RefrigerantLeak, Some(LeakPlace::IndoorCoil))
    }

    fn pair() -> Hypothesis {
        let filter = Cause { kind: FaultKind::LoadedFilter, place: None };
        Hypothesis { causes: vec![filter, leak().causes[0]] }
    }

    #[test]
    fn suspects_are_named_with_their_places() {
        let words = Words::default();
        assert_eq!(words.say(&Hypothesis { causes: Vec::new() }), "nothing wrong");
        assert_eq!(words.say(&leak()), "refrigerant leak (indoor coil)");
        assert_eq!(words.say(&pair()), "dirty or plugged filter and refrigerant leak (indoor coil)");
        assert_eq!(words.heading(&RowOf::Hypothesis(leak())), "Refrigerant leak (indoor coil)");
        assert_eq!(words.heading(&RowOf::Others { count: 31 }), "All others (31)");
    }

    #[test]
    fn a_broken_rule_is_told_with_what_the_call_says_of_it() {
        let call = call();
        let before = Milestone::GaugesConnected;
        let one_of = vec![Milestone::CoilThawed, Milestone::CompressorStopped];
        let out = Reason::OutOfOrder { rule: 0, before, one_of: one_of.clone() };
        let sentence = "Connecting the gauges came before a coil free of ice or stopping the compressor.";
        assert_eq!(told(&out), format!("{sentence} {}", call.prerequisites[0].why.in_language("en-US")));
        assert_eq!(Words::default().heading(&out), sentence);
        let kept = Reason::InOrder { rule: 0, before, one_of };
        assert_eq!(
            told(&kept),
            "A coil free of ice or stopping the compressor came first, then connecting the gauges."
        );
    }

    #[test]
    fn entries_are_listed_as_people_do() {
        let fallen = |entries| told(&Reason::RivalRuledOut { rival: FaultKind::PluggedDrier, entries });
        for (entries, beginning) in [
            (vec![], "Ruled out: "),
            (vec![3], "Ruled out, most of all by entry 3: "),
            (vec![3, 4], "Ruled out, most of all by entries 3 and 4: "),
            (vec![3, 4, 7], "Ruled out, most of all by entries 3, 4 and 7: "),
        ] {
            let told = fallen(entries);
            assert!(told.starts_with(beginning), "{told}");
        }
        let cited = Reason::CitedInPart {
            cited: 4,
            useless: vec![
                Useless { entries: vec![2, 5], why: NoEvidence::InDoubt(Trust::Unsettled) },
                Useless { entries: vec![9], why: NoEvidence::NothingReadOrSeen },
            ],
        };
        assert_eq!(
            told(&cited),
            "Of 4 cited entries, these rule out nothing: entries 2 and 5 (still moving); entry 9 (nothing was read or \
             seen)."
        );
    }

    #[test]
    fn what_still_stands_and_what_was_in_doubt_is_told_where_there_is_any() {
        let cause = FaultKind::LoadedFilter;
        let reason =
            |standing, doubtful| told(&Reason::CauseProbable { cause, probability: 0.8, standing, doubtful });
        let lead = "What you had read and seen makes it 80 % probable: dirty or plugged filter.";
        assert_eq!(reason(vec![], vec![]), lead);
        let standing = vec![
            Standing { suspect: leak(), probability: 0.12 },
            Standing { suspect: pair(), probability: 0.08 },
        ];
        let doubtful = vec![Doubtful { entries: vec![6], doubt: Trust::IceOnCoil }];
        let possible = "Still possible: refrigerant leak (indoor coil) (12 %); dirty or plugged filter and refrigerant \
                        leak (indoor coil) (8.0 %).";
        let little = "Some readings were in doubt: entry 6 (ice on the coil).";
        assert_eq!(reason(standing.clone(), vec![]), format!("{lead} {possible}"));
        assert_eq!(reason(vec![], doubtful.clone()), format!("{lead} {little}"));
        assert_eq!(reason(standing, doubtful), format!("{lead} {possible} {little}"));
    }

    #[test]
    fn quantities_of_a_reason_are_in_the_readers_units() {
        let iced = Reason::CoilIced { ice_kg: 0.9 };
        let in_units = |units| Words::in_units(units).reason(&iced, &call());
        assert_eq!(in_units(Units::Ip), "There is 1 lb 15.7 oz of ice on the coil.");
        assert_eq!(in_units(Units::Si), "There is 0.900 kg of ice on the coil.");
        let charge = Reason::ChargeRightOnly { charge_share: 0.9934, low_share: 0.97, high_share: 1.03 };
        assert_eq!(
            told(&charge),
            "The circuit holds 99.3 % of its charge; 97 % to 103 % is right. That counts once the cause is gone."
        );
        let took = Reason::Took { took_for_s: 5_700.0, par_for_s: 6_600.0, cost: 231.0 };
        assert_eq!(
            told(&took),
            "The visit took 1 h 35 min; a sound visit needs 1 h 50 min. Parts and refrigerant cost $231."
        );
        let parts = |parts| told(&Reason::NeedlessParts { parts, cost: 40.0 });
        assert!(parts(1).starts_with("A good part was replaced;"), "{}", parts(1));
        assert!(parts(2).starts_with("2 good parts were replaced;"), "{}", parts(2));
    }

    #[test]
    fn what_an_entry_did_is_told_with_names_and_numbers() {
        let shift = |suspect, before_probability, after_probability| Shift {
            suspect,
            before_probability,
            after_probability,
        };
        let shifts = |more| Shifts {
            changes: vec![shift(leak(), 0.4, 0.03)],
            more,
            before_probability: 0.1,
            after_probability: 0.004,
        };
        let say = |effect: &Effect| Words::default().say(effect).replace('\u{a0}', " ");
        assert_eq!(
            say(&Effect::RuledOut(shifts(0))),
            "Ruled out: refrigerant leak (indoor coil) (40 % to 3.0 %)."
        );
        assert!(say(&Effect::RuledOut(shifts(1))).ends_with("; one more (10 % to 0.4 %)."));
        assert!(say(&Effect::PointsTo(shifts(3))).ends_with("; 3 more (together 10 % to 0.4 %)."));
        assert_eq!(say(&Effect::Nothing), "Did not tell suspects apart.");
    }

    #[test]
    fn no_probability_reads_as_certain() {
        let words = Words::default();
        for (probability, text) in
            [(0.0, "under 0.1"), (0.004, "0.4"), (0.5, "50"), (0.995, "99.5"), (0.9996, "over 99.9")]
        {
            assert_eq!(words.probability(probability), format!("{text}\u{a0}%"));
        }
    }

    #[test]
    fn what_was_wrong_is_told_with_how_it_ended() {
        let wrong = |place, still_there| {
            let kind = FaultKind::RefrigerantLeak;
            Words::default().heading(&WrongThing { kind, place, severity: 0.3162, still_there })
        };
        assert_eq!(
            wrong(Some(LeakPlace::IndoorCoil), true),
            "Refrigerant leak (indoor coil; severity 0.32 of 1): still there"
        );
        assert_eq!(wrong(None, false), "Refrigerant leak (severity 0.32 of 1): gone");
    }
}
