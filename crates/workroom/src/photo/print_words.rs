//! What a print is like, in words.

use super::read::PhotoCloth;
use quilt::cloth::Runs;
use quilt::length::fraction;

impl PhotoCloth {
    /// How large what is printed is, and how often it comes again.
    #[must_use]
    pub fn print_words(&self) -> String {
        if self.motif_in <= 0.0 {
            return "plain".to_owned();
        }
        let motif = format!("printed, about {} across", fraction(self.motif_in, 8));
        match self.look.repeat_in {
            Some(repeat_in) => format!("{motif}, again every {}", fraction(repeat_in, 8)),
            None => motif,
        }
    }

    /// Which way it runs. Of a print that runs one way a picture doesn't tell which end is up.
    #[must_use]
    pub fn runs_words(&self) -> String {
        match self.look.runs {
            Runs::AnyWay => "any way".to_owned(),
            Runs::BothWays(turn) => format!("both ways, at {:.0}°", turn.to_degrees().rem_euclid(180.0)),
            Runs::OneWay(turn) => {
                let deg = turn.to_degrees().rem_euclid(360.0);
                format!("one way, along {deg:.0}°; say which end is up (ragbag change NO --up DEGREES)")
            }
        }
    }
}
