//! Prints what the suspects make of scripted visits.

use std::time::Instant;

use clap::{Parser, ValueEnum};
use diagnosis::{Cause, Hypotheses, Hypothesis, Part, Posterior, Prior};
use plant::StepError;
use trials::{Case, Go, case, fixed_routine, guided, is_sure, reliability, repair, work_all};
use visit::Visit;
use words::Words;

/// Scripted technicians on generated calls.
#[derive(Parser)]
struct Arguments {
    /// How many calls.
    #[arg(long, default_value_t = plant::FaultKind::ALL.len() as u64)]
    count: u64,
    /// Number of the first.
    #[arg(long, default_value_t = 0)]
    from: u64,
    /// Visits at the same time.
    #[arg(long, default_value_t = 1)]
    threads: usize,
    /// Manner of working.
    #[arg(long, value_enum, default_value_t = Manner::Whole)]
    manner: Manner,
    /// Does the repair that the suspects ask for, to see the part that comes out.
    #[arg(long)]
    repair: bool,
    /// Prints the suspects after each entry.
    #[arg(long)]
    verbose: bool,
}

/// Manners of working.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Manner {
    /// The fixed routine to its end.
    Whole,
    /// The fixed routine until one suspect is sure.
    Fixed,
    /// The next best test until one suspect is sure.
    Guided,
}

/// Every how many entries the suspects are asked along the way.
const ALONG_EVERY: u32 = 5;

/// What came of one visit.
struct Worked {
    line: String,
    hit_before: bool,
    /// Whether the likeliest part was the true one, before any was changed.
    part_before: bool,
    entries: usize,
    hit: bool,
    probability: f64,
    minutes: f64,
    scores: (f64, f64),
    stated: Vec<(f64, bool)>,
    along: Vec<(f64, bool)>,
}

fn main() -> Result<(), StepError> {
    let arguments = Arguments::parse();
    let results = work_all(arguments.from..arguments.from + arguments.count, arguments.threads, |number| {
        let result = work(number, &arguments);
        match &result {
            Ok(worked) => println!("{}", worked.line),
            Err(error) => println!("{number:3} MISS MISS PART ended in an error: {error}"),
        }
        Ok(result)
    })?;
    let lost = results.iter().filter(|result| result.is_err()).count();
    let results: Vec<Worked> = results.into_iter().flatten().collect();
    summary(&results);
    if lost > 0 {
        println!("beside these {lost} visits ended in an error: they count as missed, by name and by part");
    }
    Ok(())
}

fn work(number: u64, arguments: &Arguments) -> Result<Worked, StepError> {
    let case = case(number);
    let mut visit = Visit::start(&case.call, number)?;
    let begun = Instant::now();
    let Some(mut suspects) = Hypotheses::arrive(&case.call, &Prior::Even, &diagnosis::Unwatched)? else {
        unreachable!("nobody stops it")
    };
    let arrived_s = begun.elapsed().as_secs_f64();
    let mut along = Vec::new();
    if arguments.manner == Manner::Guided {
        suspects = guided(&mut visit, suspects, 300.0)?;
    } else {
        let mut follow = |visit: &Visit| -> Result<Go, StepError> {
            if let Some(entry) = visit.notebook().last() {
                suspects.follow(entry, &diagnosis::Unwatched)?;
                if entry.number.is_multiple_of(ALONG_EVERY) {
                    along.extend(stated(&suspects, &case));
                }
                if arguments.verbose {
                    println!("  {:2} {:?} -> {:?}", entry.number, entry.action, entry.outcome);
                    println!("       {}", likeliest(&suspects, &suspects.probabilities(), &case));
                }
            }
            let enough = arguments.manner == Manner::Fixed && is_sure(&suspects);
            Ok(if enough { Go::Enough } else { Go::On })
        };
        fixed_routine(&mut visit, &mut follow)?;
    }
    if arguments.verbose && arguments.manner == Manner::Guided {
        for (entry, weighed) in visit.notebook().iter().zip(suspects.weighed()) {
            println!(
                "  {:2} {:?} -> {:?} {:.2} bit",
                entry.number, entry.action, entry.outcome, weighed.gained_bits
            );
            println!("       {}", likeliest(&suspects, &weighed.after, &case));
        }
    }
    let found_min = visit.clock_minutes();
    let before = top(&suspects, 3);
    let hit_before = is_true(&suspects.standing()[0], &case);
    let part_before = is_true_part(&suspects, &case);
    let found_entries = visit.notebook().len();
    let at_the_end = stated(&suspects, &case);
    let (log_score, brier) = scores(&suspects, &case);
    let sound_parts = if arguments.repair { repair(&mut visit, &mut suspects)? } else { 0 };
    let standing = suspects.standing();
    let first = &standing[0];
    let hit = is_true(first, &case);
    let line = format!(
        "{number:3} {}{}{} {:?} {:.2} {} | {before} | {} | true {:.3} | arrive {:.1} s, follow {:.1} s, {found_min:.0} min, {} entries, score {log_score:.4} {brier:.4}, {sound_parts} sound parts, {:?}",
        if hit_before { "ok  " } else { "MISS" },
        if hit { " ok  " } else { " MISS" },
        if part_before { " part" } else { " PART" },
        case.fault.kind,
        case.fault.severity,
        case.call.system.name,
        top(&suspects, 3),
        suspects.chance_of(case.fault.kind),
        arrived_s,
        begun.elapsed().as_secs_f64() - arrived_s,
        found_entries,
        suspects.following(),
    );
    Ok(Worked {
        line,
        hit_before,
        part_before,
        entries: found_entries,
        hit,
        probability: first.probability,
        minutes: found_min,
        scores: (log_score, brier),
        stated: at_the_end,
        along,
    })
}

/// The likeliest suspects after an entry, and the true one.
fn likeliest(suspects: &Hypotheses, after: &[f64], case: &Case) -> String {
    let mut all: Vec<(f64, &Hypothesis)> = after.iter().copied().zip(suspects.names()).collect();
    all.sort_by(|one, other| other.0.total_cmp(&one.0));
    let told = |(probability, suspect): &(f64, &Hypothesis)| {
        format!("{} {probability:.3}", Words::default().say(suspect))
    };
    let mut told: Vec<String> = all.iter().take(3).map(told).collect();
    let cause = Cause { kind: case.fault.kind, place: case.fault.place };
    let truth = Hypothesis { causes: vec![cause] };
    let of_truth =
        all.iter().find(|(_, suspect)| **suspect == truth).map_or(0.0, |(probability, _)| *probability);
    told.push(format!("truth {of_truth:.1e}"));
    told.join(" | ")
}

/// Log score (natural, of the probability given to the true suspect, at least one in a million) and Brier score (over all
/// suspects; Brier 1950) of what is stated; less is better.
fn scores(suspects: &Hypotheses, case: &Case) -> (f64, f64) {
    let standing = suspects.standing();
    let of_truth =
        standing.iter().find(|chance| is_true(chance, case)).map_or(0.0, |chance| chance.probability);
    let squares = standing.iter().map(|chance| {
        let is = if is_true(chance, case) { 1.0 } else { 0.0 };
        (chance.probability - is) * (chance.probability - is)
    });
    (-libm::log(of_truth.max(1.0e-6)), squares.sum())
}

/// What is stated of each suspect that is not out, and whether it is true.
fn stated(suspects: &Hypotheses, case: &Case) -> Vec<(f64, bool)> {
    let standing = suspects.standing();
    let open = standing.iter().filter(|chance| chance.probability > 0.005);
    open.map(|chance| (chance.probability, is_true(chance, case))).collect()
}

fn is_true(chance: &Posterior, case: &Case) -> bool {
    chance.suspect.causes.len() == 1
        && chance.suspect.causes[0].kind == case.fault.kind
        && chance.suspect.causes[0].place == case.fault.place
}

/// Whether the repair that the likeliest part asks for takes the true fault away.
fn is_true_part(suspects: &Hypotheses, case: &Case) -> bool {
    let cause = Cause { kind: case.fault.kind, place: case.fault.place };
    suspects.likeliest_part().0 == Part::of(&Hypothesis { causes: vec![cause] })
}

fn top(suspects: &Hypotheses, count: usize) -> String {
    let told: Vec<String> = suspects
        .standing()
        .iter()
        .take(count)
        .map(|chance| {
            let amount =
                chance.amounts.first().map_or(String::new(), |(mean, sd)| format!(" {mean:.2}±{sd:.2}"));
            format!("{} {:.3}{amount}", Words::default().say(&chance.suspect), chance.probability)
        })
        .collect();
    told.join(" | ")
}

fn summary(results: &[Worked]) {
    let count = results.len().max(1) as f64;
    let hits = results.iter().filter(|result| result.hit).count();
    let mut minutes: Vec<f64> = results.iter().map(|result| result.minutes).collect();
    minutes.sort_by(f64::total_cmp);
    let before = results.iter().filter(|result| result.hit_before).count();
    println!(
        "first is true before a repair: {before} of {} ({:.1} %)",
        results.len(),
        100.0 * before as f64 / count
    );
    let parts = results.iter().filter(|result| result.part_before).count();
    println!(
        "first part is true before a repair: {parts} of {} ({:.1} %)",
        results.len(),
        100.0 * parts as f64 / count
    );
    let mean = |score: fn(&Worked) -> f64| results.iter().map(score).sum::<f64>() / count;
    println!(
        "mean log score {:.3}, Brier score {:.3}",
        mean(|worked| worked.scores.0),
        mean(|worked| worked.scores.1)
    );
    println!("first is true at the end: {hits} of {} ({:.1} %)", results.len(), 100.0 * hits as f64 / count);
    println!(
        "minutes: mean {:.0}, median {:.0}",
        minutes.iter().sum::<f64>() / count,
        minutes.get(minutes.len() / 2).copied().unwrap_or(0.0)
    );
    println!(
        "entries: mean {:.0}, most {}",
        results.iter().map(|result| result.entries).sum::<usize>() as f64 / count,
        results.iter().map(|result| result.entries).max().unwrap_or(0)
    );
    let mean_first = results.iter().map(|result| result.probability).sum::<f64>() / count;
    println!("mean probability of the first: {mean_first:.3}");
    reliability("at the end", results.iter().map(|result| result.stated.as_slice()));
    if results.iter().any(|result| !result.along.is_empty()) {
        reliability("along the way", results.iter().map(|result| result.along.as_slice()));
    }
}
