//! Means, medians and ranks.

/// Mean and standard deviation of the numbers as a whole; zeros without numbers.
pub(super) fn mean_and_sd(numbers: &[f64]) -> (f64, f64) {
    let n = numbers.len().max(1) as f64;
    let mean = numbers.iter().sum::<f64>() / n;
    let variance = numbers.iter().map(|x| (x - mean) * (x - mean)).sum::<f64>() / n;
    (mean, variance.sqrt())
}

/// The middle number, or the mean of the two middle ones; 0 without numbers.
pub(super) fn median(numbers: &[f64]) -> f64 {
    let mut sorted = numbers.to_vec();
    sorted.sort_by(f64::total_cmp);
    let n = sorted.len();
    match n {
        0 => 0.0,
        _ if n % 2 == 1 => sorted[n / 2],
        _ => f64::midpoint(sorted[n / 2 - 1], sorted[n / 2]),
    }
}

/// Spearman's rank correlation with weights: the weighted correlation of weighted mid-ranks, where
/// the rank of a value is the weight below it and half the weight equal to it. With equal weights it
/// is the ordinary one. 0 when one of the two doesn't vary.
pub(super) fn spearman(pairs: &[(f64, f64)], weights: &[f64]) -> f64 {
    let xs: Vec<f64> = pairs.iter().map(|p| p.0).collect();
    let ys: Vec<f64> = pairs.iter().map(|p| p.1).collect();
    correlation(&ranks(&xs, weights), &ranks(&ys, weights), weights)
}

fn ranks(values: &[f64], weights: &[f64]) -> Vec<f64> {
    let mut order: Vec<usize> = (0..values.len()).collect();
    order.sort_by(|&i, &j| values[i].total_cmp(&values[j]));
    let mut ranks = vec![0.0; values.len()];
    let mut below = 0.0;
    for equal in order.chunk_by(|&i, &j| values[i] == values[j]) {
        let weight: f64 = equal.iter().map(|&i| weights[i]).sum();
        for &i in equal {
            ranks[i] = below + weight / 2.0;
        }
        below += weight;
    }
    ranks
}

fn correlation(xs: &[f64], ys: &[f64], weights: &[f64]) -> f64 {
    let total: f64 = weights.iter().sum();
    let mean =
        |values: &[f64]| values.iter().zip(weights).map(|(v, w)| v * w).sum::<f64>() / total.max(1e-300);
    let (mean_x, mean_y) = (mean(xs), mean(ys));
    let (mut xy, mut xx, mut yy) = (0.0, 0.0, 0.0);
    for ((x, y), w) in xs.iter().zip(ys).zip(weights) {
        let (dx, dy) = (x - mean_x, y - mean_y);
        xy += w * dx * dy;
        xx += w * dx * dx;
        yy += w * dy * dy;
    }
    let product = xx * yy;
    if product > 0.0 { xy / product.sqrt() } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    // The worked example of intelligence and hours before a screen that textbooks and
    // encyclopedias print: ranks with sum of squared differences 194 over 10 pairs, rho = -29/165
    // (from memory; recomputed as 1 - 6 * 194 / (10 * 99)).
    #[test]
    fn equal_weights_give_the_ordinary_rank_correlation() {
        let pairs = [
            (106.0, 7.0),
            (100.0, 27.0),
            (86.0, 2.0),
            (101.0, 50.0),
            (99.0, 28.0),
            (103.0, 29.0),
            (97.0, 20.0),
            (113.0, 12.0),
            (112.0, 6.0),
            (110.0, 17.0),
        ];
        assert!((spearman(&pairs, &[1.0; 10]) + 29.0 / 165.0).abs() < 1e-12);
    }

    #[test]
    fn a_weight_of_two_counts_as_two_of_the_same() {
        let pairs = [(1.0, 2.0), (2.0, 1.0), (3.0, 5.0), (4.0, 3.0)];
        let doubled = [(1.0, 2.0), (2.0, 1.0), (3.0, 5.0), (3.0, 5.0), (4.0, 3.0)];
        let weighted = spearman(&pairs, &[1.0, 1.0, 2.0, 1.0]);
        assert!((weighted - spearman(&doubled, &[1.0; 5])).abs() < 1e-12);
        assert_eq!(spearman(&[(1.0, 3.0), (2.0, 3.0)], &[1.0, 1.0]), 0.0);
    }

    #[test]
    fn the_median_is_the_middle() {
        assert_eq!(median(&[3.0, 1.0, 2.0]), 2.0);
        assert_eq!(median(&[4.0, 1.0, 2.0, 3.0]), 2.5);
        assert_eq!(median(&[]), 0.0);
    }
}
