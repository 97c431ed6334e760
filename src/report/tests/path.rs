//! A sound path, worked out for a call and written into the page of its review.

mod common;

use std::sync::atomic::{AtomicUsize, Ordering};

use diagnosis::Hypotheses;
use judge::{Area, Marks};
use report::{Review, ReviewFigures, SoundPath, html};
use visit::{Move, Place, Visit};
use words::{Units, Words};

#[test]
fn a_sound_path_appears_on_the_page() {
    // A short history: the path matters here, not how the ice came.
    let call = call::Call { history_s: 1800.0, ..common::call() };
    let visit = common::visit_after(&call, &[Move::Look(Place::Thermostat), Move::CloseTicket]);
    let arrived = Hypotheses::arrive(&call, &judge::prior(&call), &diagnosis::Unwatched)
        .expect("the shadows stay finite")
        .expect("nobody stops it");

    let stopped = SoundPath::work_out(&call, visit.seed(), arrived.clone(), &Stopped);
    assert_eq!(stopped.expect("the plants stay finite"), None);

    let made = AtomicUsize::new(0);
    let path = SoundPath::work_out(&call, visit.seed(), arrived.clone(), &Counts(&made))
        .expect("the plants stay finite")
        .expect("nobody stops it");
    assert!(made.into_inner() > 0, "how far it is was told");
    let actions: Vec<&Move> = path.steps.iter().map(|step| &step.action).collect();
    let at = |wanted: fn(&Move) -> bool| actions.iter().position(|action| wanted(action));
    let declared = at(|action| matches!(action, Move::Declare(_))).expect("the cause is declared");
    let proven = at(|action| matches!(action, Move::Verify)).expect("the repair is proven");
    assert!(declared < proven);

    // A path that is called sound keeps the order that the call asks for.
    let mut worked = Visit::start(&call, visit.seed()).expect("a call starts");
    for action in &actions {
        worked.perform(action).expect("the plant stays finite");
    }
    // Order, repair and safety hang on the moves alone, so suspects that weighed nothing will do.
    let marks = judge::judge_weighed(&worked, &arrived).expect("the plants stay finite");
    for area in [Area::Order, Area::Repair, Area::Safety] {
        for mark in marks.items_in(area) {
            assert!(mark.points >= mark.of - 1.0e-9, "{:?}\n{actions:#?}", mark.reason);
        }
    }

    let review = Review::new(&visit, &Marks::of(Vec::new()));
    let recording = visit::Recording::of(&visit).expect("the plants stay finite");
    let figures = ReviewFigures::of(&visit, &recording, 1.0, &diagnosis::Unwatched);
    let figures = figures.expect("the plants stay finite").expect("nobody stops it");
    let dossier = ReviewFigures { path: Some(path), ..figures };
    let page = html::page(&review, &visit, &dossier, Words::in_units(Units::Ip));
    let (_, part) = page.split_once("id=\"path-part\"").expect("the page has the path");
    let (part, _) = part.split_once("</section>").expect("the part ends");
    for told in
        ["A sound path through this call", "Run the system and verify the repair", "Says what is wrong"]
    {
        assert!(part.contains(told), "{told}:\n{part}");
    }
}

/// Nobody waits for it.
struct Stopped;

impl diagnosis::Progress for Stopped {
    fn report(&self, _done: diagnosis::Done) {}

    fn is_cancelled(&self) -> bool {
        true
    }
}

/// Takes in the steps made.
struct Counts<'a>(&'a AtomicUsize);

impl diagnosis::Progress for Counts<'_> {
    fn report(&self, done: diagnosis::Done) {
        if let diagnosis::Done::Steps(made) = done {
            self.0.store(made, Ordering::Relaxed);
        }
    }

    fn is_cancelled(&self) -> bool {
        false
    }
}
