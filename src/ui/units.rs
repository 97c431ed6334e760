//! Times as they are written on screen.

use words::{Words, span};

/// Time of day from hours: "14:05".
pub fn time_of_day(hour: f64) -> String {
    let minutes = (hour * 60.0).floor().rem_euclid(1440.0);
    format!("{:02.0}:{:02.0}", (minutes / 60.0).floor(), minutes % 60.0)
}

/// Time since arrival from s, as the notebook writes it: "0:07", "2:05".
pub fn since_arrival(seconds: f64) -> String {
    let minutes = (seconds.max(0.0) / 60.0).floor();
    format!("{:.0}:{:02.0}", (minutes / 60.0).floor(), minutes % 60.0)
}

/// Minutes as a move costs them: "2 min", "30 s", "no time".
pub fn cost_in_minutes(minutes: f64, words: Words) -> String {
    if minutes <= 0.0 {
        words.label("screen-time-none")
    } else if minutes < 1.0 || (minutes - minutes.round()).abs() < 0.05 {
        span(minutes * 60.0)
    } else {
        words.fill("screen-time-minutes", &[("minutes", format!("{minutes:.1}"))])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn clock_and_spans() {
        assert_eq!(time_of_day(14.099), "14:05");
        assert_eq!(time_of_day(23.9999), "23:59");
        assert_eq!(since_arrival(7_500.0), "2:05");
        assert_eq!(span(59.6), "1 min");
        assert_eq!(span(7_200.0), "2 h");
        assert_eq!(span(7_500.0), "2 h 05 min");
        for (minutes, text) in [(0.0, "no time"), (0.5, "30 s"), (90.0, "1 h 30 min"), (1.5, "1.5 min")] {
            assert_eq!(cost_in_minutes(minutes, Words::default()), text);
        }
    }
}
