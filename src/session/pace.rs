//! How real time becomes plant time.

use crate::command::Speed;
use crate::look::{ClockLook, Pace};
use visit::Move;

/// The clock of a visit.
#[derive(Clone, Debug, Default)]
pub(crate) struct PlantClock {
    speed: Speed,
    pace: Pace,
    /// Pace to return to when a move that was begun in a pause is done.
    after_move: Option<Pace>,
}

/// Longest real time that one frame passes on, s: after a stall the plant doesn't jump.
const LONGEST_FRAME_S: f64 = 0.25;
/// Real time that a move of ordinary length plays for, s.
const MOVE_PLAYS_FOR_S: f64 = 1.2;
/// Real time that a wait plays for, s.
const WAIT_PLAYS_FOR_S: f64 = 5.0;
/// A move never plays slower than this, plant seconds a second.
const SLOWEST_MOVE: f64 = 30.0;

impl PlantClock {
    /// As set.
    pub fn look(&self) -> ClockLook {
        ClockLook { speed: self.speed, pace: self.pace }
    }

    /// Whether time stands.
    pub fn is_paused(&self) -> bool {
        self.pace == Pace::Paused
    }

    /// Stops or restarts.
    pub fn toggle_pause(&mut self) {
        self.pace = match self.pace {
            Pace::Running => Pace::Paused,
            Pace::Paused => Pace::Running,
        };
        self.after_move = None;
    }

    /// Stops.
    pub fn pause(&mut self) {
        self.pace = Pace::Paused;
        self.after_move = None;
    }

    /// Sets the speed; a paused clock stays paused.
    pub fn set_speed(&mut self, speed: Speed) {
        self.speed = speed;
    }

    /// A move begins: it takes its time even if the clock was paused, and the pause returns after it.
    pub fn begin_move(&mut self) {
        if self.after_move.is_none() {
            self.after_move = Some(self.pace);
        }
        self.pace = Pace::Running;
    }

    /// The move is done.
    pub fn end_move(&mut self) {
        if let Some(pace) = self.after_move.take() {
            self.pace = pace;
        }
    }

    /// Plant time for a frame without a move, s.
    pub fn idle_plant_s(&self, real_s: f64) -> f64 {
        match self.pace {
            Pace::Paused => 0.0,
            Pace::Running => frame_s(real_s) * self.speed.factor(),
        }
    }

    /// Plant time for a frame within a move, s: fast enough not to bore, slow enough to see the plant move.
    pub fn move_plant_s(&self, real_s: f64, action: &Move, total_s: f64) -> f64 {
        if self.pace == Pace::Paused {
            return 0.0;
        }
        let plays_for_s = if matches!(action, Move::Wait(_)) { WAIT_PLAYS_FOR_S } else { MOVE_PLAYS_FOR_S };
        let rate = (total_s / plays_for_s).max(SLOWEST_MOVE).max(self.speed.factor());
        frame_s(real_s) * rate
    }
}

fn frame_s(real_s: f64) -> f64 {
    if real_s.is_finite() { real_s.clamp(0.0, LONGEST_FRAME_S) } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use visit::Duration;

    #[test]
    fn speeds_multiply_real_time_and_a_pause_stops_it() {
        let mut clock = PlantClock::default();
        assert_eq!(clock.idle_plant_s(0.1), 0.1);
        clock.set_speed(Speed::ThreeHundred);
        assert_eq!(clock.idle_plant_s(0.1), 30.0);
        clock.toggle_pause();
        assert_eq!(clock.idle_plant_s(0.1), 0.0);
        assert_eq!(clock.move_plant_s(0.1, &Move::Verify, 600.0), 0.0);
        clock.toggle_pause();
        assert_eq!(clock.idle_plant_s(0.1), 30.0);
    }

    #[test]
    fn a_stalled_frame_passes_on_a_quarter_of_a_second() {
        assert_eq!(PlantClock::default().idle_plant_s(8.0), 0.25);
        assert_eq!(PlantClock::default().idle_plant_s(f64::NAN), 0.0);
    }

    #[test]
    fn a_move_in_a_pause_takes_its_time_and_the_pause_returns() {
        let mut clock = PlantClock::default();
        clock.pause();
        clock.begin_move();
        assert!(clock.move_plant_s(0.1, &Move::Verify, 600.0) > 0.0);
        clock.end_move();
        assert!(clock.is_paused());
    }

    #[test]
    fn going_on_during_a_move_holds_after_it() {
        let mut clock = PlantClock::default();
        clock.pause();
        clock.begin_move();
        clock.toggle_pause();
        clock.toggle_pause();
        clock.end_move();
        assert!(!clock.is_paused());
    }

    #[test]
    fn a_wait_of_hours_plays_in_seconds() {
        let clock = PlantClock::default();
        let wait = Move::Wait(Duration::Hours(4.0));
        let plant_s: f64 = (0..300).map(|_| clock.move_plant_s(1.0 / 60.0, &wait, 14_400.0)).sum();
        assert!(plant_s >= 14_399.0, "{plant_s}");
    }
}
