//! Medians and other shares of a list, and a figure over another.

/// The value below which this share of the list lies; none of an empty list.
pub(crate) fn at_share(values: &[f64], share: f64) -> Option<f64> {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let last = sorted.len().checked_sub(1)?;
    sorted.get((last as f64 * share).round() as usize).copied()
}

/// Prints a figure in bands of another: how many there are, the median, nine of ten.
pub(crate) fn print(name: &str, bands: &[f64], values: &[(f64, f64)]) {
    for pair in bands.windows(2) {
        let inside = |x: f64| x >= pair[0] && x < pair[1];
        let band: Vec<f64> = values.iter().filter(|(x, _)| inside(*x)).map(|(_, y)| *y).collect();
        let show = |share: f64| at_share(&band, share).map_or("-".to_owned(), |y| format!("{y:.4}"));
        println!("| {name} {} to {} | {} | {} | {} |", pair[0], pair[1], band.len(), show(0.5), show(0.9));
    }
}
