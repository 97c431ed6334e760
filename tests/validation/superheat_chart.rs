//! A full published charging chart of fixed orifices, whole.

/// Outdoor dry bulbs of the rows, °F.
pub const OUTDOORS_F: [f64; 13] =
    [55.0, 60.0, 65.0, 70.0, 75.0, 80.0, 85.0, 90.0, 95.0, 100.0, 105.0, 110.0, 115.0];
/// Entering wet bulb of the first column, °F; the others follow by two.
const FIRST_WET_F: f64 = 50.0;
/// No value: the chart forbids charging there.
const NO: f64 = f64::NAN;

/// Superheat at the suction service port, °F, by outdoor dry bulb (rows) and wet bulb of the air that enters the indoor coil,
/// 50, 52 ... 76 °F (columns).
///
/// Source, read: installation instructions of an R-410A split air conditioner (14 SEER) in a public library of manuals,
/// "SH (superheat) values (±5 °F)", page 26. The instructions of an R-22 unit by another maker carry the same table to within 1 °F, and
/// the table of California Title 24 RA3.2-2 is the same (from memory); so it is one chart of the whole trade and not of one unit. Its
/// rows at 40 to 50 °F outdoors are left out, since no charge is to be judged below 55 °F (RA3.2). The dry bulb indoors is not stated; 80 °F
/// is taken.
#[rustfmt::skip]
const CHART_F: [[f64; 14]; 13] = [
    [9.0, 12.0, 14.0, 17.0, 20.0, 23.0, 27.0, 30.0, 33.0, 36.0, 38.0, 40.0, 42.0, 44.0],
    [7.0, 10.0, 12.0, 15.0, 18.0, 21.0, 24.0, 27.0, 30.0, 33.0, 35.0, 38.0, 40.0, 43.0],
    [ NO,  6.0, 10.0, 13.0, 16.0, 19.0, 21.0, 24.0, 27.0, 30.0, 33.0, 36.0, 38.0, 41.0],
    [ NO,   NO,  7.0, 10.0, 13.0, 16.0, 19.0, 21.0, 24.0, 27.0, 30.0, 33.0, 36.0, 39.0],
    [ NO,   NO,   NO,  6.0,  9.0, 12.0, 15.0, 18.0, 21.0, 24.0, 28.0, 31.0, 34.0, 37.0],
    [ NO,   NO,   NO,   NO,  5.0,  8.0, 12.0, 15.0, 18.0, 21.0, 25.0, 28.0, 31.0, 35.0],
    [ NO,   NO,   NO,   NO,   NO,   NO,  8.0, 11.0, 15.0, 19.0, 22.0, 26.0, 30.0, 33.0],
    [ NO,   NO,   NO,   NO,   NO,   NO,  5.0,  9.0, 13.0, 16.0, 20.0, 24.0, 27.0, 31.0],
    [ NO,   NO,   NO,   NO,   NO,   NO,   NO,  6.0, 10.0, 14.0, 18.0, 22.0, 25.0, 29.0],
    [ NO,   NO,   NO,   NO,   NO,   NO,   NO,   NO,  8.0, 12.0, 16.0, 21.0, 24.0, 28.0],
    [ NO,   NO,   NO,   NO,   NO,   NO,   NO,   NO,  5.0,  9.0, 13.0, 17.0, 22.0, 26.0],
    [ NO,   NO,   NO,   NO,   NO,   NO,   NO,   NO,   NO,  6.0, 11.0, 15.0, 20.0, 25.0],
    [ NO,   NO,   NO,   NO,   NO,   NO,   NO,   NO,   NO,   NO,  8.0, 14.0, 18.0, 24.0],
];

/// Target superheat, °F; none where the chart has no value or does not reach. Outdoor temperatures of a row, wet bulbs by straight lines
/// between columns.
pub fn chart_f(outdoor_f: f64, wet_f: f64) -> Option<f64> {
    let row = OUTDOORS_F.iter().position(|f| (f - outdoor_f).abs() < 1e-9)?;
    let place = (wet_f - FIRST_WET_F) / 2.0;
    let left = libm::floor(place).max(0.0) as usize;
    let share = place - left as f64;
    let values = &CHART_F[row];
    let (a, b) = (*values.get(left)?, *values.get(if share > 0.0 { left + 1 } else { left })?);
    let value = a + share * (b - a);
    (place >= 0.0 && value.is_finite()).then_some(value)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_chart_is_read_at_its_places() {
        assert_eq!(chart_f(95.0, 64.0), Some(6.0));
        assert_eq!(chart_f(95.0, 67.0), Some(12.0));
        assert_eq!(chart_f(95.0, 62.0), None);
        assert_eq!(chart_f(95.0, 63.0), None, "half way to a dash is a dash");
        assert_eq!(chart_f(55.0, 76.0), Some(44.0));
        assert_eq!(chart_f(55.0, 77.0), None);
        assert_eq!(chart_f(57.0, 67.0), None);
    }

    /// Typed in rightly: along a row it rises by 2 to 6 °F a column, down a column it falls.
    #[test]
    fn the_chart_rises_with_the_wet_bulb_and_falls_with_the_weather() {
        for (i, row) in CHART_F.iter().enumerate() {
            for pair in row.windows(2).filter(|pair| pair[0].is_finite()) {
                assert!((2.0..=6.0).contains(&(pair[1] - pair[0])), "row {i}: {pair:?}");
            }
            if let Some(next) = CHART_F.get(i + 1) {
                for (above, below) in row.iter().zip(next).filter(|(_, below)| below.is_finite()) {
                    assert!((1.0..=5.0).contains(&(above - below)), "row {i}: {above} {below}");
                }
            }
        }
    }
}
