//! Stated probabilities against what was true.

/// Of what was called so likely, how much was true; and in how many visits it was called so: a row for each band.
pub fn reliability<'a>(when: &str, visits: impl Iterator<Item = &'a [(f64, bool)]> + Clone) {
    println!("{when}: stated | suspects | visits | mean stated | true");
    for (low, high) in [
        (0.005, 0.05),
        (0.05, 0.2),
        (0.2, 0.4),
        (0.4, 0.6),
        (0.6, 0.7),
        (0.7, 0.9),
        (0.9, 0.99),
        (0.99, 1.01),
    ] {
        let is_inside = |(stated, _): &&(f64, bool)| *stated >= low && *stated < high;
        let inside: Vec<&(f64, bool)> = visits.clone().flatten().filter(is_inside).collect();
        if inside.is_empty() {
            continue;
        }
        let in_visits = visits.clone().filter(|stated| stated.iter().any(|one| is_inside(&one))).count();
        let of = inside.len() as f64;
        let stated = inside.iter().map(|(stated, _)| stated).sum::<f64>() / of;
        let right = inside.iter().filter(|(_, right)| *right).count() as f64 / of;
        println!("{low:.3} to {high:.2} | {} | {in_visits} | {stated:.3} | {right:.3}", inside.len());
    }
}
