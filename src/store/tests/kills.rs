//! A program that is killed while it works a visit, at moments drawn by chance: at most the move in progress is lost.
//!
//! Ten times; `RIMEBENCH_KILLS=150 cargo test -p session --test kills` for more.

use std::fs;
use std::io::{BufRead as _, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::Duration as RealTime;

use store::{Journal, interrupted};
use visit::Duration;
use visit::{Move, Place, Visit};

/// In the environment of the program that is to be killed: its folder.
const WORKS_IN: &str = "RIMEBENCH_TEST_WORKS_IN";
const HOW_OFTEN: &str = "RIMEBENCH_KILLS";
/// Longest that it lives after its first move, in tenths of a millisecond.
const LIVES_MOST: u64 = 4_000;

const MOVES: [Move; 4] = [
    Move::InspectFilter,
    Move::Look(Place::Thermostat),
    Move::Wait(Duration::Minutes(1.0)),
    Move::ReadDataPlate,
];

/// Works a visit without end and tells each move after it was written.
fn work(folder: &Path) {
    let (id, text) = call::built_in()[0];
    let call = call::read(text, id).expect("valid");
    let mut visit = Visit::start(&call, 3).expect("finite");
    let mut journal: Option<Journal> = None;
    for action in MOVES.iter().cycle() {
        visit.begin(action);
        while visit.busy().is_some() {
            visit.work(30.0).expect("finite");
        }
        match &mut journal {
            Some(journal) => journal.follow(&visit).expect("written"),
            None => journal = Some(Journal::begin(&visit, None, folder).expect("written")),
        }
        println!("made {}", visit.notebook().len());
    }
}

/// Not a test of its own: what the other one starts and kills.
#[test]
fn worked_to_be_killed() {
    if let Some(folder) = std::env::var_os(WORKS_IN) {
        work(&PathBuf::from(folder));
    }
}

#[test]
fn a_kill_loses_the_move_in_progress_at_most() {
    let times = std::env::var(HOW_OFTEN).ok().and_then(|text| text.parse().ok()).unwrap_or(10_u64);
    let mut lost = 0;
    for number in 0..times {
        let folder = std::env::temp_dir().join(format!("rimebench-kills-{}-{number}", std::process::id()));
        let _ = fs::remove_dir_all(&folder);
        fs::create_dir_all(&folder).expect("a folder");
        let mut child = Command::new(std::env::current_exe().expect("this test"))
            .args(["worked_to_be_killed", "--exact", "--nocapture", "--test-threads=1"])
            .env(WORKS_IN, &folder)
            .stdout(Stdio::piped())
            .spawn()
            .expect("started");
        let lines = BufReader::new(child.stdout.take().expect("piped")).lines();
        let told = std::thread::spawn(move || {
            let mut last = 0;
            for line in lines.map_while(Result::ok) {
                if let Some((_, made)) = line.split_once("made ") {
                    last = made.trim().parse().expect("a number");
                }
            }
            last
        });
        while journal_length(&folder) == 0 {
            std::thread::sleep(RealTime::from_millis(2));
        }
        // A moment by chance, the same at each run (Knuth's multiplicative hashing).
        let moment = number.wrapping_mul(2_654_435_761) % LIVES_MOST;
        std::thread::sleep(RealTime::from_micros(100 * moment));
        child.kill().expect("killed");
        child.wait().expect("ended");
        let told: usize = told.join().expect("read");
        let left = interrupted(&folder);
        let [left] = left.as_slice() else {
            assert_eq!(told, 0, "kill {number}: nothing left");
            fs::remove_dir_all(folder).expect("removed");
            continue;
        };
        let made = left.record.moves().count();
        assert!(made >= told && made <= told + 1, "kill {number}: {made} left of {told}");
        lost += usize::from(made > told);
        let again = visit::replay(&left.record, &left.call().expect("built in")).expect("replays");
        assert_eq!(again.notebook().len(), made, "kill {number}");
        fs::remove_dir_all(folder).expect("removed");
    }
    println!("{times} kills; {lost} of them between a written move and the word of it");
}

/// Of whatever journal there is, locked or not.
fn journal_length(folder: &Path) -> u64 {
    let files = fs::read_dir(folder).expect("a folder").filter_map(|file| file.ok()?.metadata().ok());
    files.map(|file| file.len()).sum()
}
