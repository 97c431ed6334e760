//! Directions of change under single faults, fixed orifice.

use crate::chamber::{A, fault, named, orifice, settled, sound};
use crate::check::{Check, Print, Published, Topic};
use plant::{FaultKind, Readout, System};

const NAMES: [&str; 6] = ["evaporating", "superheat", "condensing", "subcooling", "discharge", "air drop"];

/// Rossi & Braun 1997, Breuker & Braun 1998 (from memory): fault, severity here, signs in the order of [`NAMES`].
const PUBLISHED: [(&str, FaultKind, f64, &str); 5] = [
    ("undercharge 20 %", FaultKind::Undercharged, 0.2, "-+--+-"),
    ("leaking compressor 10 %", FaultKind::CompressorInternalLeak, 0.1, "+---+-"),
    ("liquid-line restriction", FaultKind::PluggedDrier, 0.871, "-+-++-"),
    ("condenser air -40 %", FaultKind::FouledCondenser, 0.4, "+-+-+-"),
    ("low indoor airflow", FaultKind::LoadedFilter, 0.65, "-----+"),
];

const WHY: &str = "Leaking compressor, discharge temperature: behind a fixed orifice the lost superheat outweighs the gas that goes round \
                   twice. With a valve, which keeps the superheat, it rises. Extra recompression work would turn the sign, and would also \
                   make a worn compressor draw more power, which it does not.";

fn features(r: &Readout) -> [f64; 6] {
    [
        r.evaporating_k,
        r.superheat_k,
        r.condensing_k,
        r.subcooling_k,
        r.discharge_k,
        r.return_dry_bulb_k - r.supply_dry_bulb_k,
    ]
}

pub fn topic() -> Topic {
    let mut checks = Vec::new();
    let mut tables = String::new();
    for (name, system) in [("R-410A", orifice()), ("R-22", named("split-3-ton-r22-orifice"))] {
        tables += &format!("{name}\n\n| fault |");
        for feature in NAMES {
            tables += &format!(" {feature} |");
        }
        tables += &format!("\n|---|{}\n", "---|".repeat(NAMES.len()));
        tables += &rows(name, &system, &mut checks);
        tables += "\n";
    }
    Topic {
        name: "directions",
        source: "Change in K against the healthy system, rating A. Rossi & Braun 1997, Breuker & Braun 1998 (signs from memory); their unit \
                 held R-22. A sign that disagrees is bold.",
        checks,
        print: Print::OwnTables,
        tables,
        charts: vec![],
    }
}

fn rows(refrigerant: &str, system: &System, checks: &mut Vec<Check>) -> String {
    let healthy = features(&sound(system, A));
    let mut text = String::new();
    for (label, kind, severity, signs) in PUBLISHED {
        text += &format!("| {label} |");
        let now = features(&settled(system, A, 1.0, &[fault(kind, severity)]).readout);
        for (i, sign) in signs.chars().enumerate() {
            let change = now[i] - healthy[i];
            let published = if sign == '+' { Published::Rises } else { Published::Falls };
            let mut check =
                Check::new(format!("{refrigerant}, {label}: {}", NAMES[i]), "K", 1, published, change);
            if kind == FaultKind::CompressorInternalLeak && NAMES[i] == "discharge" {
                check = check.known(-6.0, -2.0, WHY);
            }
            let mark = if check.agrees() { "" } else { "**" };
            text += &format!(" {mark}{change:+.1}{mark} |");
            checks.push(check);
        }
        text += "\n";
    }
    text
}
