//! The marks of four technicians on two built-in calls: the rookie below the lucky guesser, he below the parts-changer, all of
//! them below the sound one.

use judge::Area;
use trials::{call_of, marks_of};

fn marks_on(seed: u64) {
    let marks: Vec<_> = marks_of(seed).expect("finite").into_iter().map(|(_, marks)| marks).collect();
    let [rookie, lucky, changer, sound] = marks.as_slice() else { panic!("four technicians") };
    let totals = [rookie, lucky, changer, sound].map(|marks| marks.total);
    println!("{}: {totals:.1?}", call_of(seed).id);
    assert!(totals.is_sorted_by(|low, high| low < high), "{totals:?}");
    // What the order rests on: refrigerant for the rookie, evidence for the guesser, order and needless parts for the changer.
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
