//! The suspects of a visit, followed on a thread beside it.
//!
//! The session tells what happens and looks at what has come of it; it never waits. Every finished entry is weighed and
//! then refined, in order, whatever else is asked meanwhile, so that the suspects at the end are those that
//! [`Hypotheses::of`] gives.

use std::collections::VecDeque;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use call::Call;
use diagnosis::{Done, Hypotheses, Posterior, Progress, Stoppable, Test, Within};
use plant::StepError;
use visit::{Entry, Move, Visit};

use crate::background::{Background, Watch};
use crate::failure::Failure;

/// Plant time that the shadows follow before the next look at what was told, s: some hundredths of a second of work.
const SLICE_S: f64 = 60.0;

/// Part of the way to the marks at which the suspects have arrived.
pub(crate) const ARRIVAL_SHARE: f64 = 0.5;

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

/// What can be looked at.
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

/// The thread, seen from the session. It stops soon after this is dropped.
pub struct Weighing {
    sender: Sender<Told>,
    shared: Arc<Shared>,
    work: Background<Stoppable<Followed>>,
    told: usize,
}

#[derive(Default)]
struct Shared {
    look: Mutex<Look>,
    /// Who waits for the suspects, once they are to be handed over.
    waits: Mutex<Option<Arc<Watch>>>,
    /// Entries and wishes that were told: what is worked out for an earlier state is dropped.
    news: AtomicUsize,
}

impl Shared {
    fn look(&self) -> MutexGuard<'_, Look> {
        self.look.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn waits(&self) -> MutexGuard<'_, Option<Arc<Watch>>> {
        self.waits.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl Weighing {
    /// Lets the suspects of a call arrive and then follow what is told.
    pub fn start(call: &Call) -> Weighing {
        let (sender, receiver) = channel();
        let shared = Arc::new(Shared::default());
        let work = Background::start("rimebench-suspects", {
            let (call, shared) = (call.clone(), Arc::clone(&shared));
            move |watch, leave| {
                leave(
                    Thread {
                        receiver: Mutex::new(receiver),
                        shared: &shared,
                        watch,
                        seen: AtomicUsize::default(),
                    }
                    .run(&call),
                )
            }
        });
        Weighing { sender, shared, work, told: 0 }
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
        // Before it is handed over the thread ends only if it can't go on.
        match self.work.poll() {
            None | Some(Ok(Ok(_)) | Err(Failure::NoResult)) => {}
            Some(Ok(Err(error))) => self.shared.look().failed = Some(Failure::from(error)),
            Some(Err(Failure::BrokeOff(_))) => self.shared.look().failed = Some(Failure::HintsBrokeOff),
            Some(Err(failure)) => self.shared.look().failed = Some(failure),
        }
        self.shared.look().clone()
    }

    /// Waits for the thread and takes the suspects, as far as they have been weighed. Who waits is told how far the arrival is and can
    /// stop it. `None` if it was stopped or the thread is gone.
    ///
    /// # Errors
    /// If a shadow left the finite numbers.
    pub fn hand_over(self, waits: &Arc<Watch>) -> Stoppable<Followed> {
        *self.shared.waits() = Some(Arc::clone(waits));
        self.send(Told::HandOver);
        self.work.wait().unwrap_or(Ok(None))
    }
}

/// Whether the thread is still wanted, by the session and by who waits for the suspects.
impl Progress for Thread<'_> {
    fn report(&self, done: Done) {
        let Done::Share(share) = done else { return };
        self.shared.look().arrived_share = share;
        if let Some(waits) = &*self.shared.waits() {
            waits.report(Done::Share(ARRIVAL_SHARE * share));
        }
    }

    fn is_cancelled(&self) -> bool {
        self.watch.is_cancelled() || self.shared.waits().as_ref().is_some_and(|waits| waits.is_cancelled())
    }
}

/// Work on the best tests: it is not wanted any more once something else was told.
struct Testing<'a>(&'a Thread<'a>);

impl Progress for Testing<'_> {
    fn report(&self, done: Done) {
        if let Done::Share(share) = done {
            self.0.shared.look().testing = Some(share);
        }
    }

    fn is_cancelled(&self) -> bool {
        self.0.is_cancelled()
            || self.0.shared.news.load(Ordering::Relaxed) != self.0.seen.load(Ordering::Relaxed)
    }
}

/// The thread's own side.
struct Thread<'a> {
    receiver: Mutex<Receiver<Told>>,
    shared: &'a Shared,
    watch: &'a Watch,
    /// News taken in.
    seen: AtomicUsize,
}

impl Thread<'_> {
    fn run(&self, call: &Call) -> Stoppable<Followed> {
        let shared = self.shared;
        let Some(arrived) = Hypotheses::arrive(call, &judge::prior(call), self)? else {
            return Ok(None);
        };
        let mut now = arrived.clone();
        let mut followed_s = now.arrival_s();
        self.publish(&now, followed_s, 0);
        let mut entries: VecDeque<Box<Entry>> = VecDeque::new();
        let mut at: Option<(f64, Option<(Move, f64)>)> = None;
        let mut asked: Option<Box<Visit>> = None;
        let wanted = Within(self);
        loop {
            let is_idle = entries.is_empty()
                && asked.is_none()
                && at.as_ref().is_none_or(|(time_s, _)| *time_s <= followed_s);
            // The session is gone.
            let Some(news) = self.news(is_idle) else { return Ok(None) };
            for told in news {
                match told {
                    Told::At(time_s, running) => at = Some((time_s, running)),
                    Told::Entry(entry) => entries.push_back(entry),
                    Told::Tests(visit) => asked = Some(visit),
                    Told::HandOver => return Ok(Some(Followed { arrived, now })),
                }
            }
            if self.is_cancelled() {
                return Ok(None);
            }
            let far = entries.front().is_some_and(|entry| entry.finished_s > followed_s + SLICE_S);
            if let Some(entry) = entries.front().filter(|_| far) {
                // A long move in slices, so that it shows how far it is.
                followed_s += SLICE_S;
                let running = (entry.started_s < followed_s).then_some((&entry.action, entry.started_s));
                if now.go_on(running, followed_s, &wanted)?.is_none() {
                    return Ok(None);
                }
                shared.look().followed_s = Some(followed_s);
            } else if let Some(entry) = entries.pop_front() {
                if now.weigh(&entry, &wanted)?.is_none() {
                    return Ok(None);
                }
                followed_s = followed_s.max(entry.finished_s);
                self.publish(&now, followed_s, entry.number);
                if now.refine(&wanted)?.is_none() {
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
                if now.go_on(running, to_s, &wanted)?.is_none() {
                    return Ok(None);
                }
                followed_s = to_s;
                shared.look().followed_s = Some(followed_s);
            } else if let Some(visit) = asked.take() {
                self.test(&now, &visit)?;
            }
        }
    }

    /// What was told since the last time; waits for it if there is nothing to do. `None` if nothing comes any more.
    fn news(&self, is_idle: bool) -> Option<Vec<Told>> {
        let receiver = self.receiver.lock().unwrap_or_else(PoisonError::into_inner);
        let mut news = Vec::new();
        if is_idle {
            news.push(receiver.recv().ok()?);
        }
        news.extend(receiver.try_iter());
        let counted = news.iter().filter(|told| !matches!(told, Told::At(..))).count();
        self.seen.fetch_add(counted, Ordering::Relaxed);
        Some(news)
    }

    fn test(&self, suspects: &Hypotheses, visit: &Visit) -> Result<(), StepError> {
        let tests = suspects.best_tests(visit, &Testing(self))?;
        let mut look = self.shared.look();
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
    use diagnosis::Unwatched;
    use visit::{AirPoint, Bulb, Place};

    fn short_call() -> Call {
        let (_, text) =
            call::built_in().iter().find(|(id, _)| *id == "kiln-street").expect("a built-in call");
        let mut call = call::read(text, "kiln-street").expect("a valid call");
        call.history_s = 3600.0;
        call
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
        let mut followed = weighing.hand_over(&Arc::default()).expect("finite").expect("nobody stopped it");
        followed.now.catch_up(&visit, 4, &Unwatched).expect("finite");
        let anew =
            Hypotheses::of(&visit, &judge::prior(&call), 4, &Unwatched).expect("finite").expect("done");
        assert_eq!(anew.weighed().len(), 4);
        assert_eq!(followed.now.weighed(), anew.weighed());
        assert_eq!(followed.now.standing(), anew.standing());
        assert!(followed.arrived.weighed().is_empty());
        let weighed = judge::weigh_all(&visit, followed.arrived, Some(&followed.now), &Unwatched);
        let marks = judge::judge_weighed(&visit, &weighed.expect("finite").expect("done")).expect("finite");
        assert_eq!(marks, judge::judge(&visit).expect("finite"));
    }

    enum Asks {
        Nothing,
        Tests,
    }

    /// A thread that has nothing to do but what it was told before: it is over once the session is gone.
    fn told(call: &Call, visits: &[Told]) -> Look {
        let (sender, receiver) = channel();
        for told in visits {
            let _ = sender.send(match told {
                Told::At(time_s, running) => Told::At(*time_s, running.clone()),
                Told::Entry(entry) => Told::Entry(entry.clone()),
                Told::Tests(visit) => Told::Tests(visit.clone()),
                Told::HandOver => Told::HandOver,
            });
        }
        drop(sender);
        let (shared, watch) = (Shared::default(), Watch::default());
        let news = visits.iter().filter(|told| !matches!(told, Told::At(..))).count();
        shared.news.store(news, Ordering::Relaxed);
        let seen = AtomicUsize::default();
        let thread = Thread { receiver: Mutex::new(receiver), shared: &shared, watch: &watch, seen };
        assert!(thread.run(call).expect("finite").is_none(), "nobody asked for the suspects");
        shared.look().clone()
    }

    #[test]
    fn a_reading_and_the_best_tests_come_back() {
        let call = short_call();
        let mut visit = Visit::start(&call, 1).expect("finite");
        let before = told(&call, &[Told::At(visit.time_s(), None)]);
        assert!(before.followed_s.is_some() && before.weighed == 0);
        visit.perform(&Move::ReadAir(AirPoint::Supply, Bulb::Dry)).expect("finite");
        let entry = Told::Entry(Box::new(visit.notebook()[0].clone()));
        let look = told(&call, &[entry, Told::Tests(Box::new(visit.clone()))]);
        assert_eq!(look.weighed, 1);
        assert_ne!(look.standing, before.standing);
        let (after, tests) = look.tests.expect("tests were compared");
        assert!(after == 1 && look.testing.is_none());
        assert!(tests.windows(2).all(|pair| pair[0].worth() >= pair[1].worth()));
        assert!(!tests.is_empty() && tests[0].gain_bits > 0.0);
    }

    #[test]
    fn a_panic_of_the_thread_is_told() {
        let (sender, _receiver) = channel();
        let work = Background::start("breaks", |_, _| panic!("meant to be seen"));
        let weighing = Weighing { sender, shared: Arc::default(), work, told: 0 };
        let mut failed = None;
        while failed.is_none() {
            failed = weighing.look().failed;
            std::thread::yield_now();
        }
        assert_eq!(failed, Some(Failure::HintsBrokeOff));
    }

    #[test]
    fn an_arrival_that_is_stopped_hands_nothing_over() {
        let call = Call { history_s: 48.0 * 3600.0, ..short_call() };
        let waits = Arc::<Watch>::default();
        waits.cancel();
        assert!(Weighing::start(&call).hand_over(&waits).expect("finite").is_none());
    }
}
