//! Shrinking and taking up, in the hundred of what was there before.

use super::length;
use crate::length::{MeasureProblem, within};

/// How much was lost, in the hundred: `100 (before − after) / before`. Negative when it grew.
///
/// # Errors
/// Lengths that make no sense.
pub fn shrunk_percent(before_in: f64, after_in: f64) -> Result<f64, MeasureProblem> {
    let must = "longer than 0, at most 10,000 inches";
    let before = within("length before", before_in, [f64::MIN_POSITIVE, crate::length::MOST_IN], must)?;
    Ok(100.0 * (before - length("length after", after_in)?) / before)
}

/// What is left of a length.
///
/// # Errors
/// A length below 0, or a shrinkage outside 0 to 50 percent.
pub fn after_shrinking(before_in: f64, percent: f64) -> Result<f64, MeasureProblem> {
    Ok(length("length before", before_in)? * kept(percent)?)
}

/// How large to make it so that it ends as wished: `wished / (1 − percent)`. Adding the percentage
/// to what is wished makes it too small.
///
/// # Errors
/// A length below 0, or a shrinkage outside 0 to 50 percent.
pub fn before_shrinking(wished_in: f64, percent: f64) -> Result<f64, MeasureProblem> {
    Ok(length("wished length", wished_in)? / kept(percent)?)
}

fn kept(percent: f64) -> Result<f64, MeasureProblem> {
    Ok(1.0 - within("shrinkage", percent, [0.0, 50.0], "from 0 to 50 percent")? / 100.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sums::tests::near;

    // T72: thequiltorchard 2013; battingcompany.com; piecedgoods.com 2011; kathleenmcmusing 2019.
    // T73 melgeecrafts.com: quilting alone, before and after.
    #[test]
    fn shrinkage_is_counted_of_what_was_there_before() {
        for (before, after, percent) in [
            (70.0, 68.0, 2.857),
            (36.5, 33.5, 8.219),
            (45.5, 43.0, 5.495),
            (83.0, 80.0, 3.614),
            (105.0, 102.0, 2.857),
            (68.0, 66.5, 2.206),
            (69.0, 67.25, 2.536),
        ] {
            near(shrunk_percent(before, after).unwrap(), percent, 5e-4);
            near(after_shrinking(before, shrunk_percent(before, after).unwrap()).unwrap(), after, 1e-9);
        }
    }

    // T61, anythingbutboring.com 2020: closer quilting takes up more.
    #[test]
    fn closer_quilting_takes_up_more() {
        for (quilted, washed, [percent, after_wash]) in
            [(19.875, 18.25, [0.625, 8.75]), (19.75, 18.125, [1.25, 9.375]), (19.5, 18.0, [2.5, 10.0])]
        {
            near(shrunk_percent(20.0, quilted).unwrap(), percent, 1e-9);
            near(shrunk_percent(20.0, washed).unwrap(), after_wash, 1e-9);
        }
    }

    // T74, quiltingboard 2014 ("at least 95").
    #[test]
    fn adding_the_percentage_makes_it_too_small() {
        near(before_shrinking(90.0, 5.0).unwrap(), 94.737, 5e-4);
        let trap = 90.0 * 1.05;
        assert!((before_shrinking(90.0, 5.0).unwrap() - trap).abs() > 0.2);
        assert!(after_shrinking(trap, 5.0).unwrap() < 90.0, "the rule of thumb is short");
        near(after_shrinking(before_shrinking(90.0, 5.0).unwrap(), 5.0).unwrap(), 90.0, 1e-9);
        assert!(before_shrinking(90.0, 100.0).is_err() && shrunk_percent(0.0, 1.0).is_err());
    }
}
