use std::time::{Duration as RealTime, Instant};

use super::*;
use ui::{FiguresLook, PathLook, Weighing};
use visit::{Duration, Move, Place};

fn folder(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("rimebench-{name}-{}", std::process::id()));
    // Left over from a run that was stopped.
    let _ = std::fs::remove_dir_all(&folder);
    folder
}

fn arrived(name: &str) -> Session {
    let options =
        Options { call: Some("tannery-lane".to_owned()), seed: Some(3), record_dir: Some(folder(name)) };
    let mut session = Session::new(&options);
    finish_job(&mut session);
    session
}

fn finish_job(session: &mut Session) {
    let limit = Instant::now() + RealTime::from_secs(240);
    while matches!(session.at, At::Preparing(..)) {
        assert!(Instant::now() < limit, "the work never ends");
        std::thread::sleep(RealTime::from_millis(5));
        session.advance(0.005);
    }
}

/// What goes beside the marks is there as well.
fn finish_review(session: &mut Session) {
    let limit = Instant::now() + RealTime::from_secs(240);
    while matches!(&session.at, At::Reviewing(reviewing) if reviewing.is_at_work()) {
        assert!(Instant::now() < limit, "the work never ends");
        std::thread::sleep(RealTime::from_millis(5));
        session.advance(0.005);
    }
}

fn reviewing(session: &Session) -> &Reviewing {
    match &session.at {
        At::Reviewing(reviewing) => reviewing,
        _ => panic!("no review: {:?}", session.state.notice),
    }
}

fn working(session: &Session) -> &Working {
    match &session.at {
        At::Working(working) => working,
        _ => panic!("not at work: {:?}", session.state.notice),
    }
}

fn since_arrival_s(session: &Session) -> f64 {
    let visit = &working(session).visit;
    visit.time_s() - visit.arrival_s()
}

fn run_frames(session: &mut Session, frames: usize) {
    for _ in 0..frames {
        session.advance(0.05);
    }
}

#[test]
fn time_passes_in_real_time_faster_and_not_at_all() {
    let mut session = arrived("clock");
    run_frames(&mut session, 40);
    assert!((since_arrival_s(&session) - 2.0).abs() <= plant::BASE_STEP_S);
    session.apply(Command::SetSpeed(ui::Speed::Sixty));
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
    let mut session = arrived("move");
    session.apply(Command::TogglePause);
    session.apply(Command::Perform(Move::Look(Place::Thermostat)));
    session.advance(0.05);
    assert!(working(&session).visit.busy().is_some(), "the move was over in one frame");
    run_frames(&mut session, 100);
    assert_eq!(working(&session).visit.notebook().len(), 1);
    assert!(working(&session).clock.is_paused(), "the pause does not return after the move");
}

#[test]
fn a_wait_is_stopped_and_recorded_with_the_time_it_took() {
    let mut session = arrived("wait");
    session.apply(Command::Perform(Move::Wait(Duration::Hours(4.0))));
    run_frames(&mut session, 3);
    session.apply(Command::StopWaiting);
    run_frames(&mut session, 2);
    let entry = &working(&session).visit.notebook()[0];
    let took_s = entry.finished_s - entry.started_s;
    assert!(took_s > 0.0 && took_s < 14_400.0, "{took_s}");
}

#[test]
fn a_saved_visit_goes_on_where_it_was_left() {
    let mut session = arrived("save");
    session.apply(Command::Perform(Move::ReadDataPlate));
    run_frames(&mut session, 60);
    session.apply(Command::SaveRecord);
    let (path, entries) = working(&session).saved.clone().expect("saved");
    assert_eq!(entries, 1);
    let digest = working(&session).visit.notebook_digest();
    session.apply(Command::Leave);
    session.apply(Command::OpenRecord(path.clone()));
    finish_job(&mut session);
    assert_eq!(working(&session).visit.notebook_digest(), digest);
    assert!(working(&session).clock.is_paused());
    std::fs::remove_dir_all(path.parent().expect("a folder")).expect("removed");
}

#[test]
fn closing_the_ticket_writes_the_record_and_leads_to_the_review() {
    let mut session = arrived("close");
    session.apply(Command::Perform(Move::CloseTicket));
    run_frames(&mut session, 200);
    finish_job(&mut session);
    assert!(reviewing(&session).look().review.closed);
    assert!(reviewing(&session).look().trace.samples().len() > 5);
    let Some(Notice::Good(text)) = &session.state.notice else { panic!("{:?}", session.state.notice) };
    let path = text.trim_start_matches("Visit record: ");
    let record = visit::Record::from_text(&std::fs::read_to_string(path).expect("written"), path);
    assert!(record.expect("a valid record").closed);
    // What is saved again in the review goes to the same file.
    session.apply(Command::SaveRecord);
    assert_eq!(files_in(&session.record_dir), ["tannery-lane-seed3.visit.ron"]);
    std::fs::remove_dir_all(&session.record_dir).expect("removed");
}

fn files_in(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = std::fs::read_dir(folder)
        .expect("a folder")
        .map(|file| file.expect("a file").file_name().to_string_lossy().into_owned())
        .collect();
    names.sort();
    names
}

#[test]
fn a_review_is_saved_as_a_page_beside_its_record() {
    let mut session = arrived("page");
    session.apply(Command::SavePage);
    assert!(session.state.notice.is_none(), "there is no review yet");
    session.apply(Command::Perform(Move::CloseTicket));
    run_frames(&mut session, 200);
    finish_job(&mut session);
    // The marks are there and nothing else.
    let look = reviewing(&session).look();
    assert!(look.review.closed && look.dossier.is_none() && look.timeline.rows.is_empty());
    assert!(matches!(look.figures, FiguresLook::UnderWay(_)));
    assert!(matches!(look.weighing, Weighing::UnderWay(_)));
    assert_eq!(look.path, PathLook::ToCome);
    assert_eq!(session.liveliness(), Liveliness::Waiting);
    session.apply(Command::SavePage);
    let Some(Notice::Bad(lines)) = &session.state.notice else { panic!("{:?}", session.state.notice) };
    assert!(lines[0].contains("still being worked out"), "{lines:?}");
    assert_eq!(files_in(&session.record_dir), ["tannery-lane-seed3.visit.ron"]);
    finish_review(&mut session);
    let look = reviewing(&session).look();
    assert_eq!((look.figures, look.weighing), (FiguresLook::Over, Weighing::Over));
    assert!(look.dossier.is_some_and(|dossier| dossier.chances.is_some()));
    assert!(!look.timeline.rows.is_empty());
    assert!(matches!(look.path, PathLook::UnderWay(_)));
    for _ in 0..2 {
        session.apply(Command::SavePage);
        let Some(Notice::Good(text)) = &session.state.notice else { panic!("{:?}", session.state.notice) };
        assert!(text.contains("tannery-lane-seed3.review.html"), "{text}");
        let names = ["tannery-lane-seed3.review.html", "tannery-lane-seed3.visit.ron"];
        assert_eq!(files_in(&session.record_dir), names);
    }
    let path = session.record_dir.join("tannery-lane-seed3.review.html");
    let page = std::fs::read_to_string(path).expect("written");
    assert!(page.starts_with("<!DOCTYPE html>") && page.ends_with("</html>\n"));
    assert!(page.contains("psig") && !page.contains("kPa"), "in the units on display");
    // A folder that is a file can hold nothing.
    let folder = std::mem::replace(&mut session.record_dir, std::env::current_exe().expect("this test"));
    if let At::Reviewing(reviewing) = &mut session.at {
        reviewing.page = None;
    }
    session.apply(Command::SavePage);
    let Some(Notice::Bad(lines)) = &session.state.notice else { panic!("{:?}", session.state.notice) };
    assert!(lines[0].starts_with("The page could not be written to "), "{lines:?}");
    std::fs::remove_dir_all(folder).expect("removed");
}

#[test]
fn a_file_that_is_not_there_is_told_on_the_start_screen() {
    let mut session = Session::new(&Options::default());
    session.apply(Command::OpenRecord(PathBuf::from("no-such-file.visit.ron")));
    finish_job(&mut session);
    assert!(matches!(session.at, At::Start));
    let Some(Notice::Bad(lines)) = &session.state.notice else { panic!("nothing is told") };
    assert!(lines[0].contains("no-such-file.visit.ron"));
}

/// A visit of one move, saved; its folder is to be removed.
fn saved(name: &str) -> (PathBuf, String) {
    let mut session = arrived(name);
    session.apply(Command::Perform(Move::ReadDataPlate));
    run_frames(&mut session, 60);
    session.apply(Command::SaveRecord);
    let (path, _) = working(&session).saved.clone().expect("saved");
    (path, working(&session).visit.notebook_digest())
}

#[test]
fn a_record_is_worked_on_as_soon_as_its_path_is_there() {
    let (path, digest) = saved("ahead");
    let mut session = Session::new(&Options::default());
    session.apply(Command::LookAhead(path.with_extension("no")));
    assert!(session.ahead.is_none(), "there is no such file");
    session.apply(Command::LookAhead(path.clone()));
    let ahead = session.ahead.as_ref().expect("begun").job();
    let limit = Instant::now() + RealTime::from_secs(240);
    let outcome = loop {
        assert!(Instant::now() < limit, "the work never ends");
        std::thread::sleep(RealTime::from_millis(5));
        if let Some(outcome) = ahead.poll() {
            break outcome;
        }
    };
    assert!(matches!(outcome, Outcome::AtWork(_)));
    session.advance(0.1);
    assert!(matches!(session.at, At::Start), "nobody has asked for it yet");
    session.apply(Command::LookAhead(path.clone()));
    session.apply(Command::OpenRecord(path.clone()));
    assert!(session.ahead.is_none(), "it was not taken");
    finish_job(&mut session);
    assert_eq!(working(&session).visit.notebook_digest(), digest);
    std::fs::remove_dir_all(path.parent().expect("a folder")).expect("removed");
}

#[test]
fn a_record_that_was_written_over_meanwhile_is_read_anew() {
    let (path, _) = saved("over");
    let mut session = Session::new(&Options::default());
    session.apply(Command::LookAhead(path.clone()));
    std::fs::write(&path, "not a record").expect("written");
    session.apply(Command::OpenRecord(path.clone()));
    finish_job(&mut session);
    assert!(matches!(session.at, At::Start));
    assert!(matches!(&session.state.notice, Some(Notice::Bad(_))));
    std::fs::remove_dir_all(path.parent().expect("a folder")).expect("removed");
}

#[test]
fn a_cancelled_arrival_leads_back() {
    let options = Options { call: Some("kiln-street".to_owned()), ..Options::default() };
    let mut session = Session::new(&options);
    session.apply(Command::CancelArrival);
    assert!(matches!(session.at, At::Start));
    session.advance(0.1);
    assert!(matches!(session.at, At::Start));
}

#[test]
fn a_window_closed_on_work_keeps_the_record() {
    let mut session = arrived("lost");
    session.save_before_closing();
    assert!(working(&session).saved.is_none(), "nothing was done, nothing is to be kept");
    session.apply(Command::Perform(Move::ReadDataPlate));
    run_frames(&mut session, 60);
    session.save_before_closing();
    assert!(working(&session).saved.as_ref().is_some_and(|(path, _)| path.exists()));
    std::fs::remove_dir_all(folder("lost")).ok();
}

/// The program ends by force: what drops without a word leaves the journal.
#[test]
fn a_killed_visit_is_offered_and_goes_on() {
    let mut session = arrived("killed");
    session.apply(Command::Perform(Move::ReadDataPlate));
    run_frames(&mut session, 60);
    let digest = working(&session).visit.notebook_digest();
    let folder = session.record_dir.clone();
    drop(session);
    let options = Options { record_dir: Some(folder.clone()), ..Options::default() };
    let mut session = Session::new(&options);
    let [card] = session.left.1.as_slice() else { panic!("{:?}", session.left.1) };
    assert_eq!((card.moves, card.seed), (1, 3));
    let journal = card.path.clone();
    session.apply(Command::GoOn(journal.clone()));
    finish_job(&mut session);
    assert_eq!(working(&session).visit.notebook_digest(), digest);
    assert_ne!(files_in(&folder), [journal.file_name().expect("a name").to_string_lossy()]);
    // Left without saving, nothing is offered: the record is there.
    session.apply(Command::Leave);
    assert!(session.left.1.is_empty());
    assert_eq!(files_in(&folder), ["tannery-lane-seed3.visit.ron"]);
    std::fs::remove_dir_all(folder).expect("removed");
}

#[test]
fn nobody_leaves_a_visit_that_could_not_be_saved() {
    let mut session = arrived("unsaved");
    session.apply(Command::Perform(Move::ReadDataPlate));
    run_frames(&mut session, 60);
    let folder = std::mem::replace(&mut session.record_dir, std::env::current_exe().expect("this test"));
    session.apply(Command::SaveAndLeave);
    assert_eq!(working(&session).visit.notebook().len(), 1, "still there");
    assert!(matches!(session.state.notice, Some(Notice::Bad(_))));
    // Nor is it lost if the window is closed.
    session.save_before_closing();
    drop(session);
    assert_eq!(session::interrupted(&folder).len(), 1);
    let mut session = Session::new(&Options { record_dir: Some(folder.clone()), ..Options::default() });
    let journal = session.left.1[0].path.clone();
    session.apply(Command::GoOn(journal));
    finish_job(&mut session);
    session.apply(Command::SaveAndLeave);
    assert!(matches!(session.at, At::Start) && session.left.1.is_empty());
    std::fs::remove_dir_all(folder).expect("removed");
}

#[test]
fn every_built_in_call_is_on_the_list() {
    let session = Session::new(&Options::default());
    assert_eq!(session.calls.len(), call::built_in().len());
}
