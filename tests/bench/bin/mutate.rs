//! Reads any number of files that are nearly right (`bench::mutations`) and counts what became of them.
//!
//! `cargo run --release -p bench --bin mutate -- --files 100000 --threads 2 --from 0`. The exit status is 1 if a reader panicked, took more
//! than a second or told nonsense; what did it is then written to `--keep`.

use std::collections::BTreeMap;
use std::path::PathBuf;
use std::process::ExitCode;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, Mutex, mpsc};
use std::time::Duration;

use bench::mutations::{Fate, Kind, Sources};
use clap::Parser;

/// How long a text may hold up everything, s: it will not end.
const HANGS_S: u64 = 60;

/// Files that are nearly right, read by their readers.
#[derive(Parser)]
struct Arguments {
    /// How many files.
    #[arg(long, default_value_t = 1000)]
    files: u64,
    /// How many threads.
    #[arg(long, default_value_t = 1)]
    threads: usize,
    /// Number of the first file.
    #[arg(long, default_value_t = 0)]
    from: u64,
    /// Print the file of this number instead.
    #[arg(long)]
    show: Option<u64>,
    /// Folder of the files of moves.
    #[arg(long, default_value = "scenarios/visits")]
    folder: PathBuf,
    /// Folder for what broke a reader.
    #[arg(long, default_value = "tests/corpus")]
    keep: PathBuf,
}

fn main() -> ExitCode {
    let arguments = Arguments::parse();
    let scratch = std::env::temp_dir().join(format!("rimebench-mutate-{}", std::process::id()));
    let result = Sources::gather(&arguments.folder, &scratch).and_then(|sources| {
        if let Some(number) = arguments.show {
            print!("{}", sources.spoilt(number).1);
            return Ok(0);
        }
        many(&arguments, sources)
    });
    let _ = std::fs::remove_dir_all(&scratch);
    match result {
        Ok(0) => ExitCode::SUCCESS,
        Ok(broken) => {
            println!("{broken} broken");
            ExitCode::FAILURE
        }
        Err(why) => {
            eprintln!("{why}");
            ExitCode::FAILURE
        }
    }
}

/// Reads them all; returns how many broke their reader.
fn many(arguments: &Arguments, sources: Sources) -> Result<usize, String> {
    // A panic is told with its file at the end.
    std::panic::set_hook(Box::new(|_| {}));
    let end = arguments.from.saturating_add(arguments.files);
    let threads = arguments.threads.max(1);
    let sources = Arc::new(sources);
    let next = Arc::new(AtomicU64::new(arguments.from));
    let at = Arc::new(Mutex::new(vec![arguments.from; threads]));
    let (send, receive) = mpsc::channel();
    // Threads of their own: one that hangs can't be waited for.
    for index in 0..threads {
        let (sources, next, at, send) = (sources.clone(), next.clone(), at.clone(), send.clone());
        std::thread::spawn(move || {
            loop {
                let number = next.fetch_add(1, Ordering::Relaxed);
                if number >= end {
                    return;
                }
                at.lock().unwrap_or_else(std::sync::PoisonError::into_inner)[index] = number;
                let (kind, fate) = sources.fate(number);
                if send.send((number, kind, fate)).is_err() {
                    return;
                }
            }
        });
    }
    drop(send);
    let mut counts: BTreeMap<Kind, [u64; 3]> = BTreeMap::new();
    let mut broken = 0;
    loop {
        match receive.recv_timeout(Duration::from_secs(HANGS_S)) {
            Ok((number, kind, fate)) => {
                let count = counts.entry(kind).or_default();
                match fate {
                    Fate::Read => count[0] += 1,
                    Fate::Refused => count[1] += 1,
                    Fate::Broken(why) => {
                        count[2] += 1;
                        broken += 1;
                        println!("file {number}, {kind:?}: {}", why.chars().take(300).collect::<String>());
                        keep(arguments, number, kind, &sources.spoilt(number).1)?;
                    }
                }
            }
            Err(mpsc::RecvTimeoutError::Disconnected) => break,
            Err(mpsc::RecvTimeoutError::Timeout) => {
                let at = at.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
                return Err(format!(
                    "for {HANGS_S} s nothing ended; being read are {at:?} (--show prints one)"
                ));
            }
        }
    }
    println!("kind          read   refused    broken");
    for (kind, [read, refused, broken]) in counts {
        println!("{:8} {read:>9} {refused:>9} {broken:>9}", format!("{kind:?}"));
    }
    Ok(broken)
}

fn keep(arguments: &Arguments, number: u64, kind: Kind, text: &str) -> Result<(), String> {
    let path = arguments.keep.join(format!("mutated-{number}.{}", kind.ending()));
    std::fs::create_dir_all(&arguments.keep)
        .and_then(|()| std::fs::write(&path, text))
        .map_err(|error| format!("{}: {error}", path.display()))
}
