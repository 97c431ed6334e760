//! A session driven without a window: by commands and frames, with a clock that is moved by hand.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use session::{
    Command, FiguresLook, HandClock, Liveliness, Notice, Options, PathLook, ReviewLook, Session, Speed,
    Stage, Store, WeighingLook,
};
use visit::{AirPoint, Bulb, CallName, Duration, Move, Place, Record};
use words::Units;

fn folder(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("rimebench-session-{name}-{}", std::process::id()));
    // Left over from a run that was stopped.
    let _ = std::fs::remove_dir_all(&folder);
    folder
}

fn session_in(folder: &Path, call: Option<&str>) -> Session {
    let options = Options { call: call.map(str::to_owned), seed: Some(3), record_dir: None };
    Session::new(&options, Store::in_folder(folder), Arc::new(HandClock::default()))
}

fn arrived(name: &str) -> (Session, PathBuf) {
    let folder = folder(name);
    let mut session = session_in(&folder, Some("tannery-lane"));
    finish_job(&mut session);
    (session, folder)
}

/// Where records lie, in a folder of settings and records.
fn records(folder: &Path) -> PathBuf {
    folder.join("records")
}

fn finish_job(session: &mut Session) {
    while matches!(session.stage(), Stage::Preparing(_)) {
        session.wait();
    }
}

fn look(session: &Session) -> Box<ReviewLook<'_>> {
    match session.stage() {
        Stage::Reviewing(look) => look,
        _ => panic!("no review: {:?}", session.notice()),
    }
}

fn visit(session: &Session) -> &visit::Visit {
    session.visit().unwrap_or_else(|| panic!("not at work: {:?}", session.notice()))
}

fn is_paused(session: &Session) -> bool {
    matches!(session.stage(), Stage::Working { clock, .. } if clock.pace == session::Pace::Paused)
}

fn is_at_list(session: &Session) -> bool {
    matches!(session.stage(), Stage::List { .. })
}

fn since_arrival_s(session: &Session) -> f64 {
    visit(session).time_s() - visit(session).arrival_s()
}

fn run_frames(session: &mut Session, frames: usize) {
    for _ in 0..frames {
        session.advance(0.05);
    }
}

/// Makes a move to its end.
fn make(session: &mut Session, action: Move) {
    session.apply(Command::Perform(action));
    while session.visit().is_some_and(|visit| visit.busy().is_some()) {
        session.advance(0.05);
    }
}

fn bad(session: &Session) -> &[String] {
    match session.notice() {
        Some(Notice::Bad(lines)) => lines,
        other => panic!("{other:?}"),
    }
}

fn good(session: &Session) -> &str {
    match session.notice() {
        Some(Notice::Good(line)) => line,
        other => panic!("{other:?}"),
    }
}

fn files_in(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = std::fs::read_dir(folder)
        .expect("a folder")
        .map(|file| file.expect("a file").file_name().to_string_lossy().into_owned())
        .collect();
    names.sort();
    names
}

const RECORD: &str = "tannery-lane-seed3.visit.ron";

/// From the list to the review, twice: the same record both times, and a review of the same recording.
#[test]
fn a_whole_visit_without_a_window_is_the_same_each_time() {
    let whole = |name: &str| {
        let folder = folder(name);
        let mut session = session_in(&folder, None);
        let Stage::List { calls, left } = session.stage() else { panic!("not at the list") };
        assert!(left.is_empty());
        let call = session::CallChoice::BuiltIn(calls[0].id.clone());
        session.apply(Command::Arrive { call, seed: 3 });
        assert!(matches!(session.stage(), Stage::Preparing(_)));
        finish_job(&mut session);
        run_frames(&mut session, 30);
        session.apply(Command::SetSpeed(Speed::Sixty));
        run_frames(&mut session, 30);
        for action in [
            Move::Look(Place::Thermostat),
            Move::ReadAir(AirPoint::Supply, Bulb::Dry),
            Move::Wait(Duration::Minutes(20.0)),
            Move::InspectFilter,
        ] {
            make(&mut session, action);
        }
        assert_eq!(visit(&session).notebook().len(), 4);
        make(&mut session, Move::CloseTicket);
        finish_job(&mut session);
        let (points, samples) = {
            let look = look(&session);
            assert!(look.review.closed && look.course.moments.len() == 5);
            (look.review.total_points, look.course.samples.clone())
        };
        let text = std::fs::read_to_string(records(&folder).join(RECORD)).expect("written");
        std::fs::remove_dir_all(folder).expect("removed");
        (points, samples, text)
    };
    let (one, two) = (whole("whole-1"), whole("whole-2"));
    assert_eq!(one, two);
    let record = Record::from_text(&one.2, "written").expect("whole");
    assert!(record.closed && record.moves().count() == 5);
}

#[test]
fn time_passes_in_real_time_faster_and_not_at_all() {
    let (mut session, _) = arrived("clock");
    run_frames(&mut session, 40);
    assert!((since_arrival_s(&session) - 2.0).abs() <= plant::BASE_STEP_S);
    session.apply(Command::SetSpeed(Speed::Sixty));
    run_frames(&mut session, 40);
    assert!((since_arrival_s(&session) - 122.0).abs() <= 3.5, "{}", since_arrival_s(&session));
    session.apply(Command::TogglePause);
    let stands_at_s = since_arrival_s(&session);
    run_frames(&mut session, 40);
    assert_eq!(since_arrival_s(&session), stands_at_s);
    assert_eq!(session.liveliness(), Liveliness::Still);
}

#[test]
fn a_move_is_played_over_frames_and_lands_in_the_notebook() {
    let (mut session, _) = arrived("move");
    session.apply(Command::TogglePause);
    session.apply(Command::Perform(Move::Look(Place::Thermostat)));
    session.advance(0.05);
    assert!(visit(&session).busy().is_some(), "the move was over in one frame");
    run_frames(&mut session, 100);
    assert_eq!(visit(&session).notebook().len(), 1);
    assert!(is_paused(&session), "the pause does not return after the move");
}

#[test]
fn a_wait_is_stopped_and_recorded_with_the_time_it_took() {
    let (mut session, _) = arrived("wait");
    session.apply(Command::Perform(Move::Wait(Duration::Hours(4.0))));
    run_frames(&mut session, 3);
    session.apply(Command::StopWaiting);
    run_frames(&mut session, 2);
    let entry = &visit(&session).notebook()[0];
    let took_s = entry.finished_s - entry.started_s;
    assert!(took_s > 0.0 && took_s < 14_400.0, "{took_s}");
}

#[test]
fn a_saved_visit_goes_on_where_it_was_left() {
    let (mut session, folder) = arrived("save");
    make(&mut session, Move::ReadDataPlate);
    session.apply(Command::SaveRecord);
    let path = records(&folder).join(RECORD);
    assert!(good(&session).ends_with(&path.display().to_string()), "{}", good(&session));
    let digest = visit(&session).notebook_digest();
    session.apply(Command::Leave);
    session.apply(Command::OpenRecord(path));
    finish_job(&mut session);
    assert_eq!(visit(&session).notebook_digest(), digest);
    assert!(is_paused(&session));
    std::fs::remove_dir_all(folder).expect("removed");
}

#[test]
fn a_closed_visit_is_reviewed_and_the_review_saved_as_a_page_beside_its_record() {
    let (mut session, folder) = arrived("page");
    session.apply(Command::SavePage);
    assert!(session.notice().is_none(), "there is no review yet");
    make(&mut session, Move::CloseTicket);
    finish_job(&mut session);
    assert!(good(&session).ends_with(RECORD));
    let text = std::fs::read_to_string(records(&folder).join(RECORD)).expect("written");
    assert!(Record::from_text(&text, RECORD).expect("a valid record").closed);
    // What is saved again in the review goes to the same file.
    session.apply(Command::SaveRecord);
    assert_eq!(files_in(&records(&folder)), [RECORD]);
    // The marks are there and nothing else.
    {
        let look = look(&session);
        assert!(look.review.closed && look.dossier.is_none() && look.timeline.rows.is_empty());
        assert!(look.course.samples.len() > 1);
        assert!(matches!(look.figures, FiguresLook::UnderWay(_)));
        assert!(matches!(look.weighing, WeighingLook::UnderWay(_)));
        assert_eq!(look.path, PathLook::ToCome);
    }
    assert_eq!(session.liveliness(), Liveliness::Waiting);
    session.apply(Command::SavePage);
    assert!(bad(&session)[0].contains("still being worked out"), "{:?}", session.notice());
    while look(&session).path == PathLook::ToCome {
        session.wait();
    }
    {
        let look = look(&session);
        assert_eq!((look.figures, look.weighing), (FiguresLook::Over, WeighingLook::Over));
        let dossier = look.dossier.expect("worked out");
        assert!(dossier.chances.is_some() && !look.timeline.rows.is_empty());
        // Page and plots show one recording.
        assert_eq!(dossier.course, *look.course);
        assert!(matches!(look.path, PathLook::UnderWay(_)));
    }
    let page = "tannery-lane-seed3.review.html";
    for _ in 0..2 {
        session.apply(Command::SavePage);
        assert!(good(&session).contains(page), "{}", good(&session));
        assert_eq!(files_in(&records(&folder)), [page, RECORD]);
    }
    let text = std::fs::read_to_string(records(&folder).join(page)).expect("written");
    assert!(text.starts_with("<!DOCTYPE html>") && text.ends_with("</html>\n"));
    assert!(text.contains("psig") && !text.contains("kPa"), "in the units on display");
    // A folder that is gone, with a file in its place, can hold nothing.
    std::fs::remove_dir_all(records(&folder)).expect("removed");
    std::fs::write(records(&folder), "").expect("written");
    session.apply(Command::SavePage);
    assert!(bad(&session)[0].starts_with("The page could not be written to "), "{:?}", session.notice());
    std::fs::remove_dir_all(folder).expect("removed");
}

#[test]
fn a_file_that_is_not_there_is_told_on_the_start_screen() {
    let mut session = session_in(&folder("none"), None);
    session.apply(Command::OpenRecord(PathBuf::from("no-such-file.visit.ron")));
    finish_job(&mut session);
    assert!(is_at_list(&session));
    assert!(bad(&session)[0].contains("no-such-file.visit.ron"));
    session.apply(Command::DismissNotice);
    assert!(session.notice().is_none());
}

/// A visit of one move, saved; its folder is to be removed.
fn saved(name: &str) -> (PathBuf, PathBuf, String) {
    let (mut session, folder) = arrived(name);
    make(&mut session, Move::ReadDataPlate);
    session.apply(Command::SaveRecord);
    (records(&folder).join(RECORD), folder, visit(&session).notebook_digest())
}

#[test]
fn a_record_that_was_looked_at_ahead_is_opened() {
    let (path, folder, digest) = saved("ahead");
    let mut session = session_in(&folder, None);
    session.apply(Command::LookAhead(path.clone()));
    session.advance(0.1);
    assert!(is_at_list(&session), "nobody has asked for it yet");
    session.apply(Command::OpenRecord(path));
    finish_job(&mut session);
    assert_eq!(visit(&session).notebook_digest(), digest);
    std::fs::remove_dir_all(folder).expect("removed");
}

#[test]
fn a_record_that_was_written_over_meanwhile_is_read_anew() {
    let (path, folder, _) = saved("over");
    let mut session = session_in(&folder, None);
    session.apply(Command::LookAhead(path.clone()));
    std::fs::write(&path, "not a record").expect("written");
    session.apply(Command::OpenRecord(path));
    finish_job(&mut session);
    assert!(is_at_list(&session) && !bad(&session).is_empty());
    std::fs::remove_dir_all(folder).expect("removed");
}

/// Whoever renames a call of one's own after a built-in one, in whatever way, does not get its marks.
#[test]
fn an_opened_record_is_held_against_the_built_in_call_of_its_name() {
    let folder = folder("held");
    std::fs::create_dir_all(&folder).expect("a folder");
    let (id, text) = call::built_in()[0];
    let easier = text.replacen("par_time: Minutes(150)", "par_time: Minutes(900)", 1);
    let easier = call::read(&easier, id).expect("valid");
    std::fs::write(folder.join(format!("{id}.ron")), &easier.source).expect("written");
    let mut worked = visit::Visit::start(&easier, 3).expect("finite");
    worked.perform(&Move::ReadDataPlate).expect("finite");
    let record = worked.record();
    let path = folder.join(RECORD);
    for name in [id.to_owned(), format!("x/{id}"), format!("..\\{id}")] {
        let call = CallName { id: name.clone(), ..record.call.clone() };
        std::fs::write(&path, Record { call, ..record.clone() }.to_text()).expect("written");
        let mut session = session_in(&folder, None);
        session.apply(Command::OpenRecord(path.clone()));
        finish_job(&mut session);
        assert!(is_at_list(&session) && !bad(&session).is_empty(), "{name}");
    }
    // Under a name of its own it is what it is.
    let own = CallName { id: "my-own".to_owned(), ..record.call.clone() };
    std::fs::write(&path, Record { call: own, ..record }.to_text()).expect("written");
    std::fs::write(folder.join("my-own.ron"), &easier.source).expect("written");
    let mut session = session_in(&folder, None);
    session.apply(Command::OpenRecord(path));
    finish_job(&mut session);
    assert_eq!(visit(&session).notebook().len(), 1);
    std::fs::remove_dir_all(folder).expect("removed");
}

#[test]
fn a_cancelled_arrival_leads_back() {
    let mut session = session_in(&folder("cancelled"), Some("kiln-street"));
    session.apply(Command::CancelArrival);
    assert!(is_at_list(&session));
    session.advance(0.1);
    assert!(is_at_list(&session));
}

#[test]
fn what_is_waited_for_tells_how_long_by_the_clock_that_is_handed_in() {
    let clock = Arc::new(HandClock::default());
    let options = Options { call: Some("kiln-street".to_owned()), ..Options::default() };
    let handed: Arc<HandClock> = Arc::clone(&clock);
    let session = Session::new(&options, Store::in_folder(&folder("waited")), handed);
    clock.pass(7.5);
    let Stage::Preparing(preparing) = session.stage() else { panic!("not on the way") };
    assert_eq!(preparing.waited_s, 7.5);
}

#[test]
fn a_program_closed_on_work_keeps_the_record_and_says_where() {
    let (mut session, folder) = arrived("closed");
    assert_eq!(session.save_before_closing(), None, "nothing was done, nothing is to be kept");
    make(&mut session, Move::ReadDataPlate);
    let path = session.save_before_closing().expect("saved");
    assert_eq!(path, records(&folder).join(RECORD));
    assert_eq!(files_in(&records(&folder)), [RECORD]);
    std::fs::remove_dir_all(folder).expect("removed");
}

/// The program ends by force: what drops without a word leaves the journal.
#[test]
fn a_killed_visit_is_offered_and_goes_on() {
    let (mut session, folder) = arrived("killed");
    make(&mut session, Move::ReadDataPlate);
    let digest = visit(&session).notebook_digest();
    drop(session);
    let mut session = session_in(&folder, None);
    let journal = {
        let Stage::List { left: [card], .. } = session.stage() else { panic!("nothing is offered") };
        assert_eq!((card.moves, card.seed), (1, 3));
        card.path.clone()
    };
    session.apply(Command::GoOn(journal.clone()));
    finish_job(&mut session);
    assert_eq!(visit(&session).notebook_digest(), digest);
    assert!(!journal.exists());
    // Left without saving, nothing is offered: the record is there.
    session.apply(Command::Leave);
    assert!(matches!(session.stage(), Stage::List { left: [], .. }));
    assert_eq!(files_in(&records(&folder)), [RECORD]);
    std::fs::remove_dir_all(folder).expect("removed");
}

#[test]
fn nobody_leaves_a_visit_that_could_not_be_saved() {
    let (mut session, folder) = arrived("unsaved");
    make(&mut session, Move::ReadDataPlate);
    // The folder is out of reach for a while.
    let away = folder.join("away");
    std::fs::rename(records(&folder), &away).expect("renamed");
    std::fs::write(records(&folder), "in the way").expect("written");
    session.apply(Command::SaveAndLeave);
    assert_eq!(visit(&session).notebook().len(), 1, "still there");
    assert!(bad(&session)[0].starts_with("The visit record could not be written to "));
    // Nor is it lost if the program is closed.
    assert_eq!(session.save_before_closing(), None);
    drop(session);
    std::fs::remove_file(records(&folder)).expect("removed");
    std::fs::rename(&away, records(&folder)).expect("renamed");
    let mut session = session_in(&folder, None);
    let journal = {
        let Stage::List { left: [card], .. } = session.stage() else { panic!("nothing is offered") };
        card.path.clone()
    };
    session.apply(Command::GoOn(journal));
    finish_job(&mut session);
    session.apply(Command::SaveAndLeave);
    assert!(matches!(session.stage(), Stage::List { left: [], .. }));
    std::fs::remove_dir_all(folder).expect("removed");
}

/// Two programs that save a visit to the same call and seed at once.
#[test]
fn two_sessions_at_once_write_two_records() {
    let (mut one, folder) = arrived("two");
    let mut two = session_in(&folder, Some("tannery-lane"));
    finish_job(&mut two);
    for session in [&mut one, &mut two] {
        make(session, Move::ReadDataPlate);
    }
    std::thread::scope(|scope| {
        for session in [&mut one, &mut two] {
            scope.spawn(|| session.apply(Command::SaveAndLeave));
        }
    });
    assert!(is_at_list(&one) && is_at_list(&two));
    assert_eq!(files_in(&records(&folder)), ["tannery-lane-seed3-2.visit.ron", RECORD]);
    std::fs::remove_dir_all(folder).expect("removed");
}

#[test]
fn what_was_set_holds_the_next_time() {
    let folder = folder("settings");
    let mut session = session_in(&folder, None);
    assert_eq!(session.words().units, Units::Ip);
    session.apply(Command::SetUnits(Units::Si));
    session.apply(Command::SetSpeed(Speed::Ten));
    let mut session = session_in(&folder, Some("tannery-lane"));
    assert_eq!(session.words().units, Units::Si);
    finish_job(&mut session);
    assert!(matches!(session.stage(), Stage::Working { clock, .. } if clock.speed == Speed::Ten));
    std::fs::remove_dir_all(folder).expect("removed");
}

#[test]
fn settings_that_cannot_be_read_are_told_and_stay_as_they_are() {
    let folder = folder("unread");
    std::fs::create_dir_all(&folder).expect("a folder");
    let file = Store::in_folder(&folder).file();
    std::fs::write(&file, "(unit: Si)").expect("written");
    let session = session_in(&folder, None);
    assert!(bad(&session)[0].contains("settings.ron"), "{:?}", session.notice());
    assert_eq!(session.words().units, Units::Ip);
    assert_eq!(std::fs::read_to_string(&file).expect("there"), "(unit: Si)");
    std::fs::remove_dir_all(folder).expect("removed");
}

#[test]
fn records_lie_where_the_settings_say_and_where_the_command_line_says_before_them() {
    let folder = folder("places");
    std::fs::create_dir_all(&folder).expect("a folder");
    let store = Store::in_folder(&folder);
    let clock = Arc::new(HandClock::default());
    let dir = |options: &Options| {
        let session = Session::new(options, store.clone(), clock.clone());
        session.record_dir().to_owned()
    };
    assert_eq!(dir(&Options::default()), folder.join("records"));
    std::fs::write(store.file(), "(records: Some(\"class\"))").expect("written");
    assert_eq!(dir(&Options::default()), folder.join("class"));
    let given = Options { record_dir: Some(PathBuf::from("elsewhere")), ..Options::default() };
    assert_eq!(dir(&given), PathBuf::from("elsewhere"));
    std::fs::remove_dir_all(folder).expect("removed");
}

/// A program that is started from a menu stands in no folder of its own.
#[test]
fn the_systems_places_for_files_do_not_hang_on_the_current_folder() {
    let store = Store::of_the_system();
    assert!(store.file().is_absolute(), "{}", store.file().display());
    assert!(store.records(&session::Settings::default()).is_absolute());
}

#[test]
fn every_built_in_call_is_on_the_list() {
    let session = session_in(&folder("list"), None);
    let Stage::List { calls, .. } = session.stage() else { panic!("not at the list") };
    assert_eq!(calls.len(), call::built_in().len());
}
