//! Hypotheses on arrival, kept for as many visits to the same calls as are marked.

use std::sync::{Arc, Mutex, PoisonError};

use call::Call;
use diagnosis::{Hypotheses, Progress, Stoppable};

use crate::prior;

/// A call and its suspects, none until they have arrived.
type OfCall = (Call, Arc<Mutex<Option<Hypotheses>>>);

/// The suspects on arrival at each call that was asked for. They hang on the call alone and on no seed, so visits of a class to
/// one call share them, and with them what is put in between later.
#[derive(Debug, Default)]
pub struct Arrivals {
    calls: Mutex<Vec<OfCall>>,
}

impl Arrivals {
    /// The suspects on arrival at a call, made unless they are there. Who asks for a call while its suspects are on their way waits for
    /// them. `None` if it was stopped.
    ///
    /// # Errors
    /// When a suspect's plant reached a state that is not finite.
    pub fn at(&self, call: &Call, progress: &dyn Progress) -> Stoppable<Hypotheses> {
        let of_call = {
            let mut calls = self.calls.lock().unwrap_or_else(PoisonError::into_inner);
            match calls.iter().find(|(known, _)| known == call) {
                Some((_, suspects)) => Arc::clone(suspects),
                None => {
                    let suspects = Arc::default();
                    calls.push((call.clone(), Arc::clone(&suspects)));
                    suspects
                }
            }
        };
        let mut suspects = of_call.lock().unwrap_or_else(PoisonError::into_inner);
        if suspects.is_none() {
            *suspects = Hypotheses::arrive(call, &prior(call), progress)?;
        }
        Ok(suspects.clone())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use diagnosis::{Done, Unwatched};
    use std::sync::atomic::{AtomicBool, AtomicU32, Ordering};

    #[derive(Default)]
    struct Told {
        times: AtomicU32,
        cancelled: AtomicBool,
    }

    impl Progress for Told {
        fn report(&self, _done: Done) {
            self.times.fetch_add(1, Ordering::Relaxed);
        }

        fn is_cancelled(&self) -> bool {
            self.cancelled.load(Ordering::Relaxed)
        }
    }

    fn short_call() -> Call {
        let (id, text) = call::built_in()[0];
        let mut call = call::read(text, id).expect("a built-in call is valid");
        call.history_s = 60.0;
        call
    }

    #[test]
    fn a_call_arrives_once_and_another_one_anew() {
        let arrivals = Arrivals::default();
        let call = short_call();
        let asked = |call: &Call| {
            let told = Told::default();
            let suspects = arrivals.at(call, &told).expect("finite").expect("nobody stops it");
            (suspects.arrival_s(), told.times.load(Ordering::Relaxed))
        };
        let (arrival_s, worked) = asked(&call);
        assert!(arrival_s == 60.0 && worked > 0);
        assert_eq!(asked(&call), (60.0, 0), "it was made a second time");
        // Of the same name, but not the same.
        let later = Call { history_s: 90.0, ..call };
        let (arrival_s, worked) = asked(&later);
        assert!(arrival_s == 90.0 && worked > 0, "another call got the suspects of the first");
    }

    #[test]
    fn what_was_stopped_is_made_when_it_is_asked_for_again() {
        let arrivals = Arrivals::default();
        let call = short_call();
        assert!(
            arrivals
                .at(&call, &Told { cancelled: true.into(), ..Told::default() })
                .expect("finite")
                .is_none()
        );
        assert!(arrivals.at(&call, &Unwatched).expect("finite").is_some());
    }
}
