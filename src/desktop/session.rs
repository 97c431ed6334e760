//! What the window is at, moved on by commands and real time. Knows no engine.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::{Duration, Instant};

use desk::{CallCard, CallChoice, Command, Desk, Notice, Stage, Trace, View};
use judge::Arrivals;
use visit::{Move, Visit};

use crate::ahead::Ahead;
use crate::clock::Clock;
use crate::hints::Adviser;
use crate::job::{Job, Outcome, SLICE_S};
use crate::reviewing::{Kept, Reviewing};
use crate::{Options, files};

/// The whole state behind the window.
pub struct Session {
    /// What only the screen knows.
    pub desk: Desk,
    calls: Vec<CallCard>,
    record_dir: PathBuf,
    /// Suspects on arrival at the calls of the records that were opened.
    arrivals: Arc<Arrivals>,
    /// The record whose path stands on the start screen.
    ahead: Option<Ahead>,
    at: At,
    /// Set when the window should close.
    pub quit: Quit,
}

/// Whether the window should close.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Quit {
    /// Stay.
    #[default]
    Stay,
    /// Close.
    Now,
}

/// How soon the next frame is wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Liveliness {
    /// Something moves.
    Moving,
    /// Long work goes on, whose progress is shown. The work needs the cores more than the screen does.
    Waiting,
    /// Nothing moves until the person does something.
    Still,
}

enum At {
    Start,
    /// With what is kept of the visit that is being judged, if there was one.
    Preparing(Job, Kept),
    Working(Box<Working>),
    Reviewing(Box<Reviewing>),
}

struct Working {
    visit: Visit,
    trace: Trace,
    clock: Clock,
    adviser: Adviser,
    /// Plant time that a frame was too short to pass on, s.
    carry_s: f64,
    /// Where the record lies, and how many entries it holds.
    saved: Option<(PathBuf, usize)>,
}

/// Real time that a frame may spend on the plant.
const FRAME_BUDGET: Duration = Duration::from_millis(14);

impl Session {
    /// At the list of calls, or on the way to the call that was asked for.
    pub fn new(options: &Options) -> Session {
        let mut session = Session {
            desk: Desk::default(),
            calls: cards(),
            record_dir: options.record_dir.clone().unwrap_or_else(|| PathBuf::from(".")),
            arrivals: Arc::default(),
            ahead: None,
            at: At::Start,
            quit: Quit::Stay,
        };
        session.desk.prefill(options.call.as_deref(), options.seed);
        if let Some(call) = &options.call {
            let is_built_in = session.calls.iter().any(|card| &card.id == call);
            let choice = if is_built_in {
                CallChoice::BuiltIn(call.clone())
            } else {
                CallChoice::File(PathBuf::from(call))
            };
            session.at = At::Preparing(Job::arrive(choice, options.seed.unwrap_or(1)), Kept::default());
        }
        session
    }

    /// Moves everything on by a frame of real time.
    pub fn advance(&mut self, real_s: f64) {
        match &mut self.at {
            At::Start => {}
            At::Reviewing(reviewing) => reviewing.take_what_is_there(),
            At::Preparing(job, _) => {
                if let Some(outcome) = job.poll()
                    && let At::Preparing(job, kept) = std::mem::replace(&mut self.at, At::Start)
                {
                    self.take(outcome, job, kept);
                }
            }
            At::Working(working) => {
                if !working.clock.is_paused() {
                    self.desk.motion.moved_s += real_s.clamp(0.0, 0.25);
                }
                let told = working.advance(real_s).err().map(|error| error.to_string());
                let is_closed = working.visit.is_closed() && working.visit.busy().is_none();
                if let Some(told) = told {
                    working.clock.pause();
                    self.desk.notice = Some(Notice::Bad(vec![
                        told,
                        "The clock stands. Save the record and report it: this is a defect of the program."
                            .to_owned(),
                    ]));
                }
                if is_closed {
                    self.judge();
                }
            }
        }
    }

    /// What a job has brought; one that goes on is kept.
    fn take(&mut self, outcome: Outcome, job: Job, kept: Kept) {
        match outcome {
            Outcome::AtWork(arrived) => {
                let (visit, trace) = *arrived;
                let mut clock = Clock::default();
                if !visit.notebook().is_empty() {
                    // A visit that goes on from a record waits for its learner.
                    clock.pause();
                }
                self.desk.clear_for_visit();
                let adviser = Adviser::start(visit.call());
                let working = Working { visit, trace, clock, adviser, carry_s: 0.0, saved: None };
                self.at = At::Working(Box::new(working));
            }
            Outcome::Marked(marked) => {
                let notice = self.desk.notice.take();
                self.desk.clear_for_visit();
                self.desk.notice = notice;
                self.at = At::Reviewing(Box::new(Reviewing::of(*marked, job, kept)));
            }
            // They come after the marks only.
            Outcome::Figures(_) | Outcome::Evidence(_) | Outcome::Over(_) => self.at = At::Start,
            Outcome::Failed(told) => {
                self.desk.notice = Some(Notice::Bad(told));
                self.at = At::Start;
            }
        }
    }

    /// Writes the record of the closed visit and has it judged.
    fn judge(&mut self) {
        self.save();
        let At::Working(working) = std::mem::replace(&mut self.at, At::Start) else { return };
        let Working { visit, trace, adviser, saved, .. } = *working;
        let kept = Kept { hints: adviser.taken(), record: saved.map(|(path, _)| path) };
        self.at = At::Preparing(Job::judge(visit, trace, adviser.into_weighing()), kept);
    }

    /// Carries out a command.
    pub fn apply(&mut self, command: Command) {
        match command {
            Command::Arrive { call, seed } => {
                self.desk.notice = None;
                self.ahead = None;
                self.at = At::Preparing(Job::arrive(call, seed), Kept::default());
            }
            Command::LookAhead(path) => self.look_ahead(path),
            Command::OpenRecord(path) => {
                self.desk.notice = None;
                self.at = At::Preparing(self.open(path), Kept::default());
            }
            Command::CancelArrival => self.at = At::Start,
            Command::SaveRecord => self.save(),
            Command::SavePage => self.save_page(),
            Command::Leave => {
                self.desk.clear_for_visit();
                self.at = At::Start;
            }
            Command::Quit => self.quit = Quit::Now,
            Command::Perform(_)
            | Command::PerformAll(_)
            | Command::AskTests
            | Command::LookAtStanding
            | Command::StopWaiting
            | Command::TogglePause
            | Command::SetSpeed(_) => {
                if let At::Working(working) = &mut self.at {
                    working.apply(command);
                }
            }
        }
    }

    /// Begins the work on a record before it is asked for, if there is such a file.
    fn look_ahead(&mut self, path: PathBuf) {
        self.ahead = match self.at {
            At::Start => Ahead::of(path, &self.arrivals),
            _ => None,
        };
    }

    /// The work on a record: the one that was begun ahead, unless the file is another one by now.
    fn open(&mut self, path: PathBuf) -> Job {
        let ahead = self.ahead.take().and_then(|ahead| ahead.asked_for(&path));
        ahead.unwrap_or_else(|| Job::open(path, Arc::clone(&self.arrivals)))
    }

    /// Writes the record, and says where.
    fn save(&mut self) {
        let saved = match &mut self.at {
            At::Working(working) => {
                let previous = working.saved.as_ref().map(|(path, _)| path.as_path());
                let saved = files::save(&working.visit, &self.record_dir, previous);
                if let Ok(path) = &saved {
                    working.saved = Some((path.clone(), working.visit.notebook().len()));
                }
                saved
            }
            At::Reviewing(reviewing) => {
                let saved = files::save(&reviewing.visit, &self.record_dir, reviewing.saved.as_deref());
                if let Ok(path) = &saved {
                    reviewing.saved = Some(path.clone());
                }
                saved
            }
            At::Start | At::Preparing(..) => return,
        };
        self.desk.notice = Some(match saved {
            Ok(path) => Notice::Good(format!("Visit record: {}", shown(&path))),
            Err(told) => Notice::Bad(vec![told]),
        });
    }

    /// Writes the review as a page, and says where.
    fn save_page(&mut self) {
        let At::Reviewing(reviewing) = &mut self.at else { return };
        self.desk.notice = Some(match reviewing.save_page(&self.record_dir, self.desk.units) {
            Ok(path) if reviewing.has_path_to_come() => Notice::Good(format!(
                "Page: {}. The sound path is still being worked out; save again later for a page that has it.",
                shown(&path)
            )),
            Ok(path) => Notice::Good(format!("Page: {}", shown(&path))),
            Err(told) => Notice::Bad(vec![told]),
        });
    }

    /// Saves a visit that would be lost when the window closes.
    pub fn save_before_closing(&mut self) {
        if let At::Working(working) = &self.at {
            let entries = working.visit.notebook().len();
            let saved = working.saved.as_ref().map_or(0, |(_, saved)| *saved);
            if entries > saved {
                self.save();
            }
        }
    }

    /// Draws a frame and returns what was asked for.
    pub fn show(&mut self, ui: &mut bevy_egui::egui::Ui) -> Vec<Command> {
        match &self.at {
            At::Start => desk::show(ui, &mut self.desk, Stage::Start { calls: &self.calls }),
            At::Preparing(job, _) => desk::show(ui, &mut self.desk, Stage::Preparing(&job.look())),
            At::Working(working) => {
                let view = View::of(&working.visit, self.desk.place.0);
                let clock = working.clock.look();
                let hints = working.adviser.look(&working.visit);
                desk::show(ui, &mut self.desk, Stage::Visit { view: &view, clock, hints: &hints })
            }
            At::Reviewing(reviewing) => {
                let look = reviewing.look();
                desk::show(ui, &mut self.desk, Stage::Review(&look))
            }
        }
    }

    /// How soon the next frame is wanted.
    pub fn liveliness(&self) -> Liveliness {
        match &self.at {
            At::Preparing(..) => Liveliness::Waiting,
            At::Reviewing(reviewing) if reviewing.is_at_work() => Liveliness::Waiting,
            At::Start | At::Reviewing(_) => Liveliness::Still,
            At::Working(working) if working.clock.is_paused() && !working.adviser.is_at_work() => {
                Liveliness::Still
            }
            At::Working(_) => Liveliness::Moving,
        }
    }
}

impl Working {
    fn apply(&mut self, command: Command) {
        match command {
            Command::Perform(action) => {
                self.adviser.plan(Vec::new());
                self.begin(&action);
            }
            Command::PerformAll(moves) => {
                self.adviser.plan(moves);
                self.go_on_with_plan();
            }
            Command::AskTests => self.adviser.ask_tests(&self.visit),
            Command::LookAtStanding => self.adviser.look_at_standing(),
            Command::StopWaiting => self.visit.stop_waiting(),
            Command::TogglePause => self.clock.toggle_pause(),
            Command::SetSpeed(speed) => self.clock.set_speed(speed),
            _ => {}
        }
        self.note_end_of_move();
    }

    fn begin(&mut self, action: &Move) {
        self.clock.begin_move();
        self.carry_s = 0.0;
        self.visit.begin(action);
    }

    /// Begins the next move of what was asked for in one go, once nothing is being done.
    fn go_on_with_plan(&mut self) {
        if let Some(action) = self.adviser.next_move(&self.visit) {
            self.begin(&action);
        }
    }

    fn advance(&mut self, real_s: f64) -> Result<(), plant::StepError> {
        let entries = self.visit.notebook().len();
        let moved = self.let_pass(real_s);
        if self.visit.notebook().len() > entries {
            self.adviser.after_move(&self.visit);
        }
        self.go_on_with_plan();
        self.adviser.follow(&self.visit);
        moved
    }

    fn let_pass(&mut self, real_s: f64) -> Result<(), plant::StepError> {
        let until = Instant::now() + FRAME_BUDGET;
        match self.visit.busy() {
            Some(progress) => {
                self.carry_s += self.clock.move_plant_s(real_s, &progress.action, progress.total_s);
                while self.carry_s >= plant::BASE_STEP_S && self.visit.busy().is_some() {
                    let slice_s = self.carry_s.min(SLICE_S);
                    self.carry_s -= slice_s;
                    self.visit.work(slice_s)?;
                    self.trace.sample(&self.visit);
                    if Instant::now() > until {
                        self.carry_s = 0.0;
                    }
                }
            }
            None => {
                self.carry_s += self.clock.idle_plant_s(real_s);
                while self.carry_s >= plant::BASE_STEP_S {
                    let steps = (self.carry_s.min(SLICE_S) / plant::BASE_STEP_S).floor();
                    let slice_s = steps * plant::BASE_STEP_S;
                    self.carry_s -= slice_s;
                    self.visit.let_time_pass(slice_s)?;
                    self.trace.sample(&self.visit);
                    if Instant::now() > until {
                        self.carry_s = 0.0;
                    }
                }
            }
        }
        self.note_end_of_move();
        Ok(())
    }

    fn note_end_of_move(&mut self) {
        if self.visit.busy().is_none() {
            self.clock.end_move();
        }
    }
}

fn cards() -> Vec<CallCard> {
    call::built_in()
        .iter()
        .filter_map(|(id, text)| {
            let call = call::read(text, id).ok()?;
            Some(CallCard {
                id: (*id).to_owned(),
                title: call.title,
                complaint: call.complaint,
                par_time_s: call.par_time_s,
            })
        })
        .collect()
}

/// A path in full where the system knows it.
fn shown(path: &Path) -> String {
    std::fs::canonicalize(path).unwrap_or_else(|_| path.to_owned()).display().to_string()
}

#[cfg(test)]
mod tests {
    use super::*;
    use desk::{FiguresLook, PathLook, Weighing};
    use std::time::Duration as RealTime;
    use visit::{Duration, Place};

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
            _ => panic!("no review: {:?}", session.desk.notice),
        }
    }

    fn working(session: &Session) -> &Working {
        match &session.at {
            At::Working(working) => working,
            _ => panic!("not at work: {:?}", session.desk.notice),
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
        session.apply(Command::SetSpeed(desk::Speed::Sixty));
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
        let Some(Notice::Good(text)) = &session.desk.notice else { panic!("{:?}", session.desk.notice) };
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
        assert!(session.desk.notice.is_none(), "there is no review yet");
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
        let Some(Notice::Bad(lines)) = &session.desk.notice else { panic!("{:?}", session.desk.notice) };
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
            let Some(Notice::Good(text)) = &session.desk.notice else { panic!("{:?}", session.desk.notice) };
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
        let Some(Notice::Bad(lines)) = &session.desk.notice else { panic!("{:?}", session.desk.notice) };
        assert!(lines[0].starts_with("The page could not be written to "), "{lines:?}");
        std::fs::remove_dir_all(folder).expect("removed");
    }

    #[test]
    fn a_file_that_is_not_there_is_told_on_the_start_screen() {
        let mut session = Session::new(&Options::default());
        session.apply(Command::OpenRecord(PathBuf::from("no-such-file.visit.ron")));
        finish_job(&mut session);
        assert!(matches!(session.at, At::Start));
        let Some(Notice::Bad(lines)) = &session.desk.notice else { panic!("nothing is told") };
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
        assert!(matches!(&session.desk.notice, Some(Notice::Bad(_))));
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

    #[test]
    fn every_built_in_call_is_on_the_list() {
        let session = Session::new(&Options::default());
        assert_eq!(session.calls.len(), call::built_in().len());
    }
}
