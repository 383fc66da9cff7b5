//! How a number becomes a grade and a cost: nothing at the good threshold, 1 at the poor one, going
//! on in a straight line and capped at [`MOST_COST`].

use serde::Serialize;

/// The most that one number or one row costs before its weight.
pub(super) const MOST_COST: f64 = 3.0;

/// How good it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Grade {
    /// In the good column.
    Good,
    /// Between good and poor.
    Fair,
    /// In the poor column.
    Poor,
    /// The maker doesn't wish for it; counts as good.
    NotWished,
    /// Too few pieces to judge; counts as neither.
    TooSoon,
}

impl Grade {
    /// The word for it in lists; a dash for what isn't wished.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Good => "good",
            Self::Fair => "fair",
            Self::Poor => "poor",
            Self::NotWished => "-",
            Self::TooSoon => "soon",
        }
    }
}

/// One number of a row.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Value {
    /// What it is, in a word or two.
    pub name: &'static str,
    /// The number.
    pub value: f64,
    /// What it costs: 0 when good, above 1 when poor.
    pub cost: f64,
}

impl Value {
    fn new(name: &'static str, value: f64, cost: f64) -> Self {
        let cost = if cost.is_finite() { cost.clamp(0.0, MOST_COST) } else { MOST_COST };
        Self { name, value, cost }
    }

    /// Good up to `good`, poor above `poor`.
    pub(super) fn at_most(name: &'static str, value: f64, good: f64, poor: f64) -> Self {
        Self::new(name, value, (value - good) / (poor - good))
    }

    /// Good from `good` up, poor below `poor`.
    pub(super) fn at_least(name: &'static str, value: f64, good: f64, poor: f64) -> Self {
        Self::new(name, value, (good - value) / (good - poor))
    }

    /// Good between, poor outside the wider range.
    pub(super) fn between(name: &'static str, value: f64, good: [f64; 2], poor: [f64; 2]) -> Self {
        let cost = if value < good[0] {
            (good[0] - value) / (good[0] - poor[0])
        } else {
            (value - good[1]) / (poor[1] - good[1])
        };
        Self::new(name, value, cost)
    }

    /// With a cost of its own.
    pub(super) fn costing(name: &'static str, value: f64, cost: f64) -> Self {
        Self::new(name, value, cost)
    }

    /// The table names no poor value for it: fair at worst.
    pub(super) fn mild(self) -> Self {
        Self { cost: self.cost.min(1.0), ..self }
    }
}

/// The grade of a row by its numbers: good when all are, poor when one is.
pub(super) fn grade(values: &[Value]) -> Grade {
    let worst = values.iter().map(|v| v.cost).fold(0.0, f64::max);
    if worst <= 0.0 {
        Grade::Good
    } else if worst <= 1.0 {
        Grade::Fair
    } else {
        Grade::Poor
    }
}
