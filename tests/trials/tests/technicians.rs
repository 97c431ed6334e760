//! The marks of four technicians on each built-in call: the rookie below the lucky guesser, he below the parts-changer, all of
//! them below the sound one.

use judge::{Area, judge_weighed, last_to_weigh, prior};
use suspects::Suspects;
use trials::{Manner, call_of, worked};

fn marks_on(seed: u64) {
    let call = call_of(seed);
    let arrived =
        Suspects::arrive(&call, seed, &prior(&call), &|_| true).expect("finite").expect("not stopped");
    let marks = Manner::ALL.map(|manner| {
        let visit = worked(seed, manner).expect("finite");
        let mut suspects = arrived.clone();
        suspects.catch_up(&visit, last_to_weigh(&visit), &|_| true).expect("finite").expect("not stopped");
        judge_weighed(&visit, &suspects).expect("finite")
    });
    let [rookie, lucky, changer, sound] = marks.each_ref().map(|marks| marks.total);
    println!("{}: {rookie:.1} {lucky:.1} {changer:.1} {sound:.1}", call.id);
    assert!(rookie < lucky && lucky < changer && changer < sound, "{rookie} {lucky} {changer} {sound}");
    // What the order rests on: refrigerant for the rookie, evidence for the guesser, order and needless parts for the changer.
    let [rookie, lucky, changer, sound] = &marks;
    assert!(rookie.points_in(Area::Refrigerant) < 8.0, "{}", rookie.points_in(Area::Refrigerant));
    assert!(lucky.points_in(Area::Evidence) < sound.points_in(Area::Evidence) - 5.0);
    assert!(changer.points_in(Area::Order) < sound.points_in(Area::Order) - 5.0);
    assert!(sound.total > 90.0, "{}", sound.total);
}

#[test]
fn tannery_lane() {
    marks_on(4);
}

#[test]
fn orchard_court() {
    marks_on(1);
}
