//! Batting as the trade packages it.

use serde::{Deserialize, Serialize};

/// A size of packaged batting.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Package {
    /// What the trade calls it.
    pub name: String,
    /// Its shorter side.
    pub width_in: f64,
    /// Its longer side.
    pub length_in: f64,
}

/// The sizes that most makers of batting sell (needlepointers.com; honeybegood.com 2012;
/// primitivequiltsandprojects.com; project12quilts 2012; the throw from memory). Where they differ,
/// the smaller: craft is 34 to 36 wide, twin also 96 long, queen also 96 wide, king also 124.
const USUAL: [(&str, f64, f64); 7] = [
    ("craft", 34.0, 45.0),
    ("crib", 45.0, 60.0),
    ("throw", 60.0, 60.0),
    ("twin", 72.0, 90.0),
    ("full", 81.0, 96.0),
    ("queen", 90.0, 108.0),
    ("king", 120.0, 120.0),
];

/// The usual packaged sizes, the smallest first.
#[must_use]
pub fn usual_packages() -> Vec<Package> {
    USUAL
        .iter()
        .map(|&(name, width_in, length_in)| Package { name: name.to_owned(), width_in, length_in })
        .collect()
}
