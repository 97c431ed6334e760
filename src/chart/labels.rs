//! Where the labels of marks stand.

/// Width of a letter of a drawing's text, px, at most (12 px sans).
pub const LETTER: f64 = 6.3;

/// Places of labels that do not lie over each other.
#[derive(Default)]
pub(crate) struct Labels {
    taken: Vec<[f64; 4]>,
}

impl Labels {
    /// A free place near a wanted one, px: first upwards, then downwards; the wanted one if nothing is free. No label begins above
    /// the top or ends right of the right.
    pub(crate) fn free(&mut self, wanted: [f64; 2], letters: usize, top: f64, right: f64) -> [f64; 2] {
        let width = LETTER * letters as f64;
        let (x, y) = (wanted[0].min(right - width), wanted[1]);
        let ways = [0.0, -12.0, 18.0, -24.0, 30.0, -36.0, 42.0];
        let is_free = |y: f64| {
            self.taken.iter().all(|[l, t, r, b]| x > *r || x + width < *l || y - 10.0 > *b || y < *t)
        };
        let y = ways.into_iter().map(|way| y + way).find(|y| *y >= top && is_free(*y)).unwrap_or(y.max(top));
        self.taken.push([x, y - 10.0, x + width, y]);
        [x, y]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn labels_of_marks_do_not_cover_each_other() {
        let mut labels = Labels::default();
        let first = labels.free([100.0, 50.0], 2, 10.0, 700.0);
        let second = labels.free([101.0, 51.0], 2, 10.0, 700.0);
        assert_ne!(first, second);
        assert!((first[1] - second[1]).abs() >= 10.0);
        assert_eq!(labels.free([300.0, 50.0], 2, 10.0, 700.0), [300.0, 50.0]);
    }
}
