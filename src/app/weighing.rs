//! The suspects of a visit, followed on a thread beside the window.
//!
//! The window tells what happens and looks at what has come of it; it never waits. Every finished entry is weighed and
//! then refined, in order, whatever else is asked meanwhile, so that the suspects at the end are those that
//! [`Hypotheses::of`] gives.

use std::collections::VecDeque;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::thread::{self, JoinHandle};
use std::time::Duration;

use call::Call;
use diagnosis::{Hypotheses, Posterior, Test};
use plant::StepError;
use visit::{Entry, Move, Visit};

use crate::failure::Failure;

/// Plant time that the shadows follow before the next look at what was told, s: some hundredths of a second of work.
const SLICE_S: f64 = 60.0;
/// How long the thread sleeps at most before it looks whether it is to stop.
const NAP: Duration = Duration::from_millis(200);

/// What the thread is told.
enum Told {
    /// Plant time of the visit, and the move that is being made with the time at which it began.
    At(f64, Option<(Move, f64)>),
    /// A move is done.
    Entry(Box<Entry>),
    /// The best tests on this visit are wanted.
    Tests(Box<Visit>),
    /// Nothing more comes; the suspects are wanted.
    HandOver,
}

/// What the window can look at.
#[derive(Clone, Debug, Default)]
pub struct Look {
    /// Share of the arrival that is done, 0 to 1.
    pub arrived_share: f64,
    /// Plant time up to which the shadows have followed, s; none before they arrived.
    pub followed_s: Option<f64>,
    /// Number of the last entry that was weighed.
    pub weighed: u32,
    /// Hypotheses as they stand after it, the likeliest first.
    pub standing: Vec<Posterior>,
    /// Best tests, and after how many entries they were worked out.
    pub tests: Option<(usize, Vec<Test>)>,
    /// Share of the work on the best tests that is done, while they are worked out.
    pub testing: Option<f64>,
    /// Why nothing is weighed any more.
    pub failed: Option<Failure>,
}

/// Hypotheses of a visit, with those on its arrival.
pub struct Followed {
    /// Before the first move.
    pub arrived: Hypotheses,
    /// After the entries that were weighed so far.
    pub now: Hypotheses,
}

/// The thread, seen from the window. It stops soon after this is dropped.
pub struct Weighing {
    sender: Sender<Told>,
    shared: Arc<Shared>,
    thread: Option<JoinHandle<Result<Option<Followed>, StepError>>>,
    told: usize,
}

struct Shared {
    look: Mutex<Look>,
    stop: AtomicBool,
    /// Entries and wishes that were told: what is worked out for an earlier state is dropped.
    news: AtomicUsize,
}

impl Shared {
    fn look(&self) -> MutexGuard<'_, Look> {
        self.look.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn goes_on(&self) -> bool {
        !self.stop.load(Ordering::Relaxed)
    }
}

/// Says on the window that the work broke off if it ends in a panic.
struct TellsOfPanic<'a>(&'a Shared);

impl Drop for TellsOfPanic<'_> {
    fn drop(&mut self) {
        if thread::panicking() {
            self.0.look().failed = Some(Failure::HintsBrokeOff);
        }
    }
}

impl Weighing {
    /// Lets the suspects of a call arrive and then follow what is told.
    pub fn start(call: &Call) -> Weighing {
        let (sender, receiver) = channel();
        let shared = Arc::new(Shared {
            look: Mutex::new(Look::default()),
            stop: AtomicBool::new(false),
            news: AtomicUsize::new(0),
        });
        let spawned = thread::Builder::new().name("rimebench-suspects".to_owned()).spawn({
            let (call, shared) = (call.clone(), Arc::clone(&shared));
            move || {
                let _guard = TellsOfPanic(&shared);
                let followed = Thread { receiver, shared: &shared, seen: 0 }.run(&call);
                if let Err(error) = &followed {
                    shared.look().failed = Some(Failure::from(error.clone()));
                }
                followed
            }
        });
        if let Err(reason) = &spawned {
            shared.look().failed = Some(Failure::NotBegun(reason.to_string()));
        }
        Weighing { sender, shared, thread: spawned.ok(), told: 0 }
    }

    /// Tells where the visit stands and what was finished since the last time.
    pub fn tell(&mut self, visit: &Visit) {
        for entry in &visit.notebook()[self.told.min(visit.notebook().len())..] {
            self.send(Told::Entry(Box::new(entry.clone())));
        }
        self.told = visit.notebook().len();
        let running = visit.busy().map(|progress| (progress.action, visit.time_s() - progress.done_s));
        // The thread may be gone after a failure, which the look tells.
        let _ = self.sender.send(Told::At(visit.time_s(), running));
    }

    /// Asks for the best tests on a visit.
    pub fn ask_tests(&mut self, visit: &Visit) {
        self.tell(visit);
        self.shared.look().testing = Some(0.0);
        self.send(Told::Tests(Box::new(visit.clone())));
    }

    fn send(&self, told: Told) {
        self.shared.news.fetch_add(1, Ordering::Relaxed);
        let _ = self.sender.send(told);
    }

    /// What has come of it.
    pub fn look(&self) -> Look {
        self.shared.look().clone()
    }

    /// Waits for the thread and takes the suspects, as far as they have been weighed. `watch` is asked now and then
    /// with the share of the arrival that is done; `false` stops it. `None` if it was stopped or the thread is gone.
    ///
    /// # Errors
    /// If a shadow left the finite numbers.
    pub fn hand_over(mut self, watch: &dyn Fn(f64) -> bool) -> Result<Option<Followed>, StepError> {
        self.send(Told::HandOver);
        let Some(thread) = self.thread.take() else { return Ok(None) };
        while !thread.is_finished() {
            let share = self.shared.look().arrived_share;
            if !watch(share) {
                self.shared.stop.store(true, Ordering::Relaxed);
            }
            thread::sleep(Duration::from_millis(10));
        }
        thread.join().unwrap_or(Ok(None))
    }
}

impl Drop for Weighing {
    fn drop(&mut self) {
        self.shared.stop.store(true, Ordering::Relaxed);
    }
}

/// The thread's own side.
struct Thread<'a> {
    receiver: Receiver<Told>,
    shared: &'a Shared,
    /// News taken in.
    seen: usize,
}

impl Thread<'_> {
    fn run(mut self, call: &Call) -> Result<Option<Followed>, StepError> {
        let shared = self.shared;
        let keep_going = |_: f64| shared.goes_on();
        let arriving = |share: f64| {
            shared.look().arrived_share = share;
            shared.goes_on()
        };
        let Some(arrived) = Hypotheses::arrive(call, &judge::prior(call), &arriving)? else {
            return Ok(None);
        };
        let mut now = arrived.clone();
        let mut followed_s = now.arrival_s();
        self.publish(&now, followed_s, 0);
        let mut entries: VecDeque<Box<Entry>> = VecDeque::new();
        let mut at: Option<(f64, Option<(Move, f64)>)> = None;
        let mut asked: Option<Box<Visit>> = None;
        loop {
            let is_idle = entries.is_empty()
                && asked.is_none()
                && at.as_ref().is_none_or(|(time_s, _)| *time_s <= followed_s);
            for told in self.news(is_idle)? {
                match told {
                    Told::At(time_s, running) => at = Some((time_s, running)),
                    Told::Entry(entry) => entries.push_back(entry),
                    Told::Tests(visit) => asked = Some(visit),
                    Told::HandOver => return Ok(Some(Followed { arrived, now })),
                }
            }
            if !shared.goes_on() {
                return Ok(None);
            }
            let far = entries.front().is_some_and(|entry| entry.finished_s > followed_s + SLICE_S);
            if let Some(entry) = entries.front().filter(|_| far) {
                // A long move in slices, so that it shows how far it is.
                followed_s += SLICE_S;
                let running = (entry.started_s < followed_s).then_some((&entry.action, entry.started_s));
                if now.go_on(running, followed_s, &keep_going)?.is_none() {
                    return Ok(None);
                }
                shared.look().followed_s = Some(followed_s);
            } else if let Some(entry) = entries.pop_front() {
                if now.weigh(&entry, &keep_going)?.is_none() {
                    return Ok(None);
                }
                followed_s = followed_s.max(entry.finished_s);
                self.publish(&now, followed_s, entry.number);
                if now.refine(&keep_going)?.is_none() {
                    return Ok(None);
                }
                self.publish(&now, followed_s, entry.number);
            } else if let Some((time_s, running)) = at.as_ref().filter(|(time_s, _)| *time_s > followed_s) {
                let to_s = time_s.min(followed_s + SLICE_S);
                let running = running.as_ref().map(|(action, began_s)| (action, *began_s));
                // A slice ends before a move that has begun, or at it.
                let (running, to_s) = match running {
                    Some((_, began_s)) if began_s > to_s => (None, to_s),
                    other => (other, to_s),
                };
                if now.go_on(running, to_s, &keep_going)?.is_none() {
                    return Ok(None);
                }
                followed_s = to_s;
                shared.look().followed_s = Some(followed_s);
            } else if let Some(visit) = asked.take() {
                self.test(&now, &visit)?;
            }
        }
    }

    /// What was told since the last time; waits a little for it if there is nothing to do.
    fn news(&mut self, is_idle: bool) -> Result<Vec<Told>, StepError> {
        let mut news = Vec::new();
        if is_idle {
            match self.receiver.recv_timeout(NAP) {
                Ok(told) => news.push(told),
                Err(RecvTimeoutError::Timeout) => {}
                // The window is gone, and with it the flag was set.
                Err(RecvTimeoutError::Disconnected) => self.shared.stop.store(true, Ordering::Relaxed),
            }
        }
        news.extend(self.receiver.try_iter());
        self.seen += news.iter().filter(|told| !matches!(told, Told::At(..))).count();
        Ok(news)
    }

    fn test(&self, suspects: &Hypotheses, visit: &Visit) -> Result<(), StepError> {
        let (shared, seen) = (self.shared, self.seen);
        let keep_going = |share: f64| {
            shared.look().testing = Some(share);
            shared.goes_on() && shared.news.load(Ordering::Relaxed) == seen
        };
        let tests = suspects.best_tests(visit, &keep_going)?;
        let mut look = shared.look();
        look.testing = None;
        if let Some(tests) = tests {
            look.tests = Some((visit.notebook().len(), tests));
        }
        Ok(())
    }

    fn publish(&self, suspects: &Hypotheses, followed_s: f64, weighed: u32) {
        let standing = suspects.standing();
        let mut look = self.shared.look();
        look.arrived_share = 1.0;
        look.followed_s = Some(followed_s);
        look.weighed = weighed;
        look.standing = standing;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::time::Instant;
    use visit::{AirPoint, Bulb, Place};

    fn short_call() -> Call {
        let (_, text) =
            call::built_in().iter().find(|(id, _)| *id == "kiln-street").expect("a built-in call");
        let mut call = call::read(text, "kiln-street").expect("a valid call");
        call.history_s = 3600.0;
        call
    }

    fn wait_until(what: &str, holds: impl Fn() -> bool) {
        let limit = Instant::now() + Duration::from_secs(240);
        while !holds() {
            assert!(Instant::now() < limit, "{what} never comes");
            thread::sleep(Duration::from_millis(5));
        }
    }

    /// Told in frames, with a wait that is cut short and tests asked for, it comes to what it comes to in one go.
    #[test]
    fn followed_beside_the_window_the_suspects_are_those_of_the_record() {
        let call = short_call();
        let mut visit = Visit::start(&call, 1).expect("finite");
        let mut weighing = Weighing::start(&call);
        let mut frame = |visit: &mut Visit, asks: Asks| {
            visit.let_time_pass(7.25).expect("finite");
            match asks {
                Asks::Tests => weighing.ask_tests(visit),
                Asks::Nothing => weighing.tell(visit),
            }
            thread::sleep(Duration::from_millis(2));
        };
        frame(&mut visit, Asks::Nothing);
        visit.begin(&Move::Wait(visit::Duration::Hours(1.0)));
        for _ in 0..60 {
            frame(&mut visit, Asks::Nothing);
        }
        visit.stop_waiting();
        for action in [Move::Look(Place::SupplyRegister), Move::ReadAir(AirPoint::Supply, Bulb::Dry)] {
            frame(&mut visit, Asks::Tests);
            visit.perform(&action).expect("finite");
        }
        frame(&mut visit, Asks::Nothing);
        visit.perform(&Move::CloseTicket).expect("finite");
        weighing.tell(&visit);
        let mut followed = weighing.hand_over(&|_| true).expect("finite").expect("nobody stopped it");
        followed.now.catch_up(&visit, 4, &|_| true).expect("finite");
        let anew = Hypotheses::of(&visit, &judge::prior(&call), 4, &|_| true).expect("finite").expect("done");
        assert_eq!(anew.weighed().len(), 4);
        assert_eq!(followed.now.weighed(), anew.weighed());
        assert_eq!(followed.now.standing(), anew.standing());
        assert!(followed.arrived.weighed().is_empty());
        let weighed = judge::weigh_all(&visit, followed.arrived, Some(&followed.now), &|_| true);
        let marks = judge::judge_weighed(&visit, &weighed.expect("finite").expect("done")).expect("finite");
        assert_eq!(marks, judge::judge(&visit).expect("finite"));
    }

    enum Asks {
        Nothing,
        Tests,
    }

    #[test]
    fn a_reading_and_the_best_tests_come_back() {
        let call = short_call();
        let mut visit = Visit::start(&call, 1).expect("finite");
        let mut weighing = Weighing::start(&call);
        weighing.tell(&visit);
        wait_until("the arrival", || weighing.look().followed_s.is_some());
        let before = weighing.look().standing;
        visit.perform(&Move::ReadAir(AirPoint::Supply, Bulb::Dry)).expect("finite");
        weighing.tell(&visit);
        wait_until("the reading", || weighing.look().weighed == 1);
        assert_ne!(weighing.look().standing, before);
        weighing.ask_tests(&visit);
        wait_until("a test", || weighing.look().testing.is_none());
        let (after, tests) = weighing.look().tests.expect("tests were compared");
        assert_eq!(after, 1);
        assert!(tests.windows(2).all(|pair| pair[0].worth() >= pair[1].worth()));
        assert!(!tests.is_empty() && tests[0].gain_bits > 0.0);
    }

    #[test]
    fn a_panic_of_the_thread_is_told() {
        let shared = Arc::new(Shared {
            look: Mutex::new(Look::default()),
            stop: AtomicBool::new(false),
            news: AtomicUsize::new(0),
        });
        let ended = thread::spawn({
            let shared = Arc::clone(&shared);
            move || {
                let _guard = TellsOfPanic(&shared);
                panic!("meant to be seen by the guard");
            }
        });
        assert!(ended.join().is_err());
        assert_eq!(shared.look().failed, Some(Failure::HintsBrokeOff));
    }

    #[test]
    fn what_is_dropped_stops_soon() {
        let call = Call { history_s: 48.0 * 3600.0, ..short_call() };
        let weighing = Weighing::start(&call);
        let shared = Arc::downgrade(&weighing.shared);
        thread::sleep(Duration::from_millis(50));
        let begun = Instant::now();
        drop(weighing);
        wait_until("the end of the thread", || shared.strong_count() == 0);
        // A shadow that is on its way is finished first; all of them take many times as long.
        assert!(begun.elapsed() < Duration::from_secs(20), "{:?}", begun.elapsed());
    }

    #[test]
    fn an_arrival_that_is_stopped_hands_nothing_over() {
        let call = Call { history_s: 48.0 * 3600.0, ..short_call() };
        let weighing = Weighing::start(&call);
        assert!(weighing.hand_over(&|_| false).expect("finite").is_none());
    }
}
