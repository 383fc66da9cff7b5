//! The mean of several colours, each with its weight.

use crate::Lab;

/// The mean colour in CIELAB, each with its weight; `None` when the weights add up to nothing.
#[must_use]
pub fn mean(parts: impl IntoIterator<Item = (Lab, f64)>) -> Option<Lab> {
    let (mut sum, mut total) = (Lab::default(), 0.0);
    for (lab, weight) in parts {
        sum = Lab::new(sum.l + lab.l * weight, sum.a + lab.a * weight, sum.b + lab.b * weight);
        total += weight;
    }
    (total > 0.0).then(|| Lab::new(sum.l / total, sum.a / total, sum.b / total))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_mean_leans_to_what_weighs_more() {
        let (dark, pale) = (Lab::new(20.0, 0.0, 8.0), Lab::new(80.0, 4.0, 0.0));
        assert_eq!(mean([(dark, 3.0), (pale, 1.0)]), Some(Lab::new(35.0, 1.0, 6.0)));
        assert_eq!(mean([]), None);
        assert_eq!(mean([(dark, 0.0)]), None);
    }
}
