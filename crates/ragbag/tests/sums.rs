//! The plain sums of the finishing, as the command line gives them.

use serde_json::Value;
use std::process::{Command, Output};

fn run(args: &[&str]) -> Output {
    let mut program = Command::new(env!("CARGO_BIN_EXE_ragbag"));
    program.env("RUST_BACKTRACE", "1").arg("sums").args(args).output().unwrap()
}

fn json(args: &[&str]) -> Value {
    let out = run(&[args, &["--json"]].concat());
    assert!(out.status.success(), "{args:?}: {}", String::from_utf8_lossy(&out.stderr));
    serde_json::from_slice(&out.stdout).unwrap()
}

fn words(args: &[&str]) -> String {
    let out = run(args);
    assert!(out.status.success(), "{args:?}: {}", String::from_utf8_lossy(&out.stderr));
    String::from_utf8(out.stdout).unwrap()
}

#[track_caller]
fn refused(args: &[&str], status: i32, says: &str) {
    let out = run(args);
    let said = String::from_utf8_lossy(&out.stderr);
    assert_eq!(out.status.code(), Some(status), "{args:?}: {said}");
    assert!(said.contains(says) && !said.contains("panicked"), "{args:?}: {said}");
}

#[track_caller]
fn near(found: &Value, expected: f64, tolerance: f64) {
    let found = found.as_f64().unwrap();
    assert!((found - expected).abs() <= tolerance, "{found} is not {expected}");
}

// Geometry (T10, T8); the other sources stand beside the sums themselves.
#[test]
fn binding_needs_its_net_length_and_the_closing_overlap() {
    let by_sides = json(&[
        "binding",
        "--sides",
        "60,72,60,72",
        "--strip-width",
        "2.25",
        "--usable",
        "40",
        "--join",
        "diagonal",
    ]);
    assert_eq!(by_sides["strips"], 7);
    near(&by_sides["length_needed_in"], 266.25, 1e-9);
    near(&by_sides["length_got_in"], 266.5, 1e-9);
    near(&by_sides["closing_overlap_in"], 2.25, 1e-9);
    assert_eq!(json(&["binding", "--perimeter", "264"]), by_sides);
    assert_eq!(json(&["binding", "--perimeter", "412", "--strip-width", "2-1/2"])["strips"], 11);
    let straight = json(&["binding", "--perimeter", "264", "--join", "straight"]);
    near(&straight["closing_overlap_in"], 0.5, 1e-9);
    near(&straight["length_needed_in"], 264.5, 1e-9);
    let said = words(&["binding", "--perimeter", "264"]);
    assert!(said.contains("7 strips, ") && said.contains("10 inches for handling: 8."), "{said}");
    refused(&["binding"], 2, "--sides");
    refused(&["binding", "--sides", "60,72", "--perimeter", "264"], 2, "cannot be used with");
    refused(&["binding", "--sides", "60,72"], 2, "at least three");
    refused(&["binding", "--sides", "60,10,10"], 2, "as long as all the others");
    refused(&["binding", "--perimeter", "264", "--usable", "2"], 2, "longer strips");
    refused(&["binding", "--perimeter", "0"], 2, "longer than 0");
}

#[test]
fn bias_spiral_and_thread_come_to_the_listed_lengths() {
    let bias = json(&["bias", "--square", "30", "--strip-width", "2-1/2"]);
    assert_eq!(bias["strips"], 8);
    near(&bias["length_in"], 328.10, 0.005);
    near(&json(&["spiral", "--radius", "24", "--gap", "1/4"])["length_in"], 7238.381, 0.0006);
    let thread = json(&["thread", "--length", "46000", "--stitch-mm", "2.5", "--thickness", "0.06"]);
    near(&thread["needle_in"], 46_000.0 * 1.6096, 1e-6);
    assert_eq!(thread["needle_in"], thread["bobbin_in"]);
    near(&thread["flat_ratio_total_in"], 115_000.0, 1e-6);
    refused(&["spiral", "--radius", "24", "--gap", "0"], 2, "gap");
    refused(&["bias", "--square", "2"], 2, "larger square");
    refused(&["thread", "--length", "2000 m", "--stitch-mm", "nan"], 2, "stitch");
    refused(&["thread", "--length", "2000000"], 2, "longer than any cloth");
}

#[test]
fn border_and_back_measure_as_listed() {
    let border = json(&["border", "--outline", "0,0 20,0 20,20 0,20", "--width", "4"]);
    near(&border["outer_perimeter_in"], 112.0, 1e-9);
    near(&border["area_sq_in"], 384.0, 1e-9);
    assert_eq!(border["sides"].as_array().unwrap().len(), 4);
    near(&border["sides"][0]["cut_long_in"], 29.2071, 5e-5);
    near(&border["sides"][0]["cut_short_in"], 20.2071, 5e-5);
    let back = json(&[
        "backing",
        "--width",
        "60",
        "--length",
        "80",
        "--overage",
        "4",
        "--usable",
        "42",
        "--seam",
        "1/2",
    ]);
    assert_eq!((&back["panels"], &back["seams"]), (&2.into(), &"along".into()));
    near(&back["yards"], 5.0, 0.0);
    refused(&["border", "--outline", "0,0 20,20 20,0 0,20", "--width", "4"], 2, "meet near");
    let notch = "0,0 20,0 20,20 12,20 12,10 8,10 8,20 0,20";
    refused(&["border", "--outline", notch, "--width", "3"], 1, "at most 2.00 wide");
}

#[test]
fn sleeve_shrinking_and_cut_sizes() {
    let sleeve = json(&["sleeve", "--width", "60"]);
    near(&sleeve["cut_length_in"], 59.0, 0.0);
    near(&sleeve["finished_length_in"], 58.0, 0.0);
    near(&sleeve["flat_in"], 4.0, 0.0);
    near(&sleeve["rod_most_in"], 2.546, 0.0005);
    assert!(words(&["sleeve", "--width", "60"]).contains("at most 2 1/2"));
    near(&json(&["shrink", "--before", "70", "--after", "68"])["percent"], 2.857, 0.0005);
    near(&json(&["shrink", "--after", "90", "--percent", "5"])["before_in"], 94.737, 0.0005);
    near(&json(&["shrink", "--before", "20", "--percent", "2.5"])["after_in"], 19.5, 1e-9);
    refused(&["shrink", "--before", "70"], 2, "two of");
    let cut = json(&["cut", "--finished", "3"]);
    near(&cut["half_square"]["cut_in"], 3.853_553, 1e-6);
    near(&cut["half_square"]["cut_eighth_in"], 3.875, 0.0);
    near(&cut["quarter_square"]["cut_in"], 4.207_107, 1e-6);
    near(&cut["equilateral"]["cut_in"], 3.75, 1e-9);
    near(&cut["hexagon"]["cut_in"], 3.5, 1e-9);
    refused(&["cut", "--finished", "-3"], 2, "");
    refused(&["cut", "--finished", "0"], 2, "longer than 0");
    refused(&["shrink", "--before", "0", "--percent", "5"], 2, "longer than 0");
    refused(&["shrink", "--before", "10", "--after", "0"], 2, "longer than 0");
    refused(&["shrink", "--before", "10", "--after", "30"], 2, "twice its length");
    refused(&["shrink", "--before", "10", "--percent", "100"], 2, "99 percent");
    near(&json(&["shrink", "--before", "70", "--percent", "80"])["after_in"], 14.0, 1e-9);
    assert!(words(&["shrink", "--before", "20", "--after", "21"]).contains("5.00 in the hundred longer"));
}

#[test]
fn what_makes_no_sense_is_told_in_plain_words() {
    for (args, says) in [
        (&["backing", "--width", "60", "--length", "80", "--overage", "-5"][..], "`-5` is less than nothing"),
        (&["border", "--outline", "0,0 9,0 9,9", "--width", "-1"], "`-1` is less than nothing"),
        (&["border", "--outline", "0,0 9,0 9,9", "--width", "0"], "more than 0, at most 100"),
        (&["weight", "--grams", "-1"], "-1: it must be from 0"),
        (&["shrink", "--before", "90"], "Give one more"),
        (&["shrink", "--before", "90", "--after", "80", "--percent", "1"], "Leave one of them out"),
        (&["spiral", "--radius", "0.1", "--gap", "5"], "goes round once"),
        (&["sleeve", "--width", "60", "--strip", "0.4"], "is -0.05: it must"),
    ] {
        refused(args, 2, says);
    }
    near(&json(&["shrink", "--before", "100", "--percent", "-3"])["after_in"], 103.0, 1e-9);
}
