//! Shrinking and taking up, in the hundred of what was there before.

use super::some;
use crate::length::{MeasureProblem, within};

/// From growing to twice the length to losing all but a hundredth.
const PERCENT: [f64; 2] = [-100.0, 99.0];

/// How much was lost, in the hundred: `100 (before − after) / before`. Negative when it grew.
///
/// # Errors
/// Lengths that aren't longer than 0, or a shrinkage outside −100 to 99 percent.
pub fn shrunk_percent(before_in: f64, after_in: f64) -> Result<f64, MeasureProblem> {
    let (before, after) = (some("length before", before_in)?, some("length after", after_in)?);
    percent(100.0 * (before - after) / before)
}

/// What is left of a length.
///
/// # Errors
/// As [`shrunk_percent`].
pub fn after_shrinking(before_in: f64, percent: f64) -> Result<f64, MeasureProblem> {
    Ok(some("length before", before_in)? * kept(percent)?)
}

/// How large to make it so that it ends as wished: `wished / (1 − percent)`. Adding the percentage
/// to what is wished makes it too small.
///
/// # Errors
/// As [`shrunk_percent`].
pub fn before_shrinking(wished_in: f64, percent: f64) -> Result<f64, MeasureProblem> {
    Ok(some("length after", wished_in)? / kept(percent)?)
}

fn kept(lost: f64) -> Result<f64, MeasureProblem> {
    Ok(1.0 - percent(lost)? / 100.0)
}

fn percent(lost: f64) -> Result<f64, MeasureProblem> {
    within("shrinkage", lost, PERCENT, "from -100 (it grew to twice its length) to 99 percent")
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

    #[test]
    fn whichever_two_are_known_the_same_is_refused() {
        for (before, after) in [(70.0, 20.0), (20.0, 30.0), (10.0, 0.2), (5.0, 10.0)] {
            let percent = shrunk_percent(before, after).unwrap();
            near(after_shrinking(before, percent).unwrap(), after, 1e-9);
            near(before_shrinking(after, percent).unwrap(), before, 1e-9);
        }
        for (before, after) in [(0.0, 1.0), (1.0, 0.0), (1000.0, 1.0), (1.0, 3.0)] {
            assert!(shrunk_percent(before, after).is_err(), "{before} {after}");
        }
        for percent in [99.5, -101.0, f64::NAN] {
            assert!(after_shrinking(10.0, percent).is_err() && before_shrinking(10.0, percent).is_err());
        }
        assert!(after_shrinking(0.0, 5.0).is_err() && before_shrinking(0.0, 5.0).is_err());
    }
}
