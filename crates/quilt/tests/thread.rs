//! Thread for whole pieces.

mod common;

use common::Hand;
use quilt::stage::thread::{Job, Pieced, ThreadChoice, ThreadPlan, ThreadProblem, Work, plan, stitches};

fn bare() -> ThreadChoice {
    ThreadChoice { tail_in: 0.0, waste_percent: 0.0, ..ThreadChoice::default() }
}

fn quilted(choice: &ThreadChoice, strokes: &[f64]) -> ThreadPlan {
    plan(choice, &Work { quilting_strokes_in: strokes.to_vec(), ..Work::default() }).unwrap()
}

#[track_caller]
fn near(found: f64, expected: f64) {
    assert!((found - expected).abs() < 1e-6, "{found} is not {expected}");
}

// The lockstitch formula (textilecalculations.com) at T .06 and 2.5 mm: 3.2192 to the inch; 60 by 80
// at an inch (geometry).
#[test]
fn quilting_takes_what_the_formula_says_and_the_flat_ratio_is_short() {
    let plan = quilted(&bare(), &[4800.0]);
    near(plan.needle_in, 4800.0 * 3.2192 / 2.0);
    assert_eq!(plan.needle_in, plan.bobbin_in);
    near(plan.flat_ratio_in, 12_000.0);
    assert!(plan.flat_ratio_in < plan.needle_in + plan.bobbin_in);
    let thick = ThreadChoice { batting_in: 0.08, ..bare() };
    assert!(quilted(&thick, &[4800.0]).total_yd() > plan.total_yd());
    let wasted = quilted(&ThreadChoice { waste_percent: 15.0, ..bare() }, &[4800.0]);
    near(wasted.needle_in, plan.needle_in * 1.15);
    assert_eq!(stitches(10.0, 2.54).unwrap(), 100.0);
}

#[test]
fn bobbins_are_counted_and_their_ends_found() {
    let plan = quilted(&bare(), &[4800.0]);
    let each = 36.0 * 60.0 / (3.2192 / 2.0);
    assert_eq!((plan.changes.len(), plan.bobbins), (3, 4));
    for (k, change) in plan.changes.iter().enumerate() {
        near(change.along_in, each * (k + 1) as f64);
    }
    let larger = quilted(&ThreadChoice { bobbin_yd: 120.0, ..bare() }, &[4800.0]);
    assert_eq!((larger.changes.len(), larger.bobbins), (1, 2));
    // Many short strokes cost tails.
    let strokes = vec![10.0; 480];
    let tailed = ThreadChoice { tail_in: 6.0, ..bare() };
    assert!(quilted(&tailed, &strokes).bobbins > quilted(&bare(), &strokes).bobbins);
}

#[test]
fn piecing_is_read_from_the_seams_that_were_sewn() {
    let mut hand = Hand::new(5);
    while hand.top().seams().len() < 12 {
        hand.add_piece();
    }
    let pieced = Pieced::of(hand.top());
    let sewn: f64 = hand.top().seams().values().map(|seam| seam.sewn_in).sum();
    assert_eq!((pieced.seams, pieced.length_in), (12, sewn));
    assert!(sewn > 12.0);
    let plan = plan(&bare(), &Work { pieced, ..Work::default() }).unwrap();
    let [job] = plan.jobs[..] else { panic!("{:?}", plan.jobs) };
    assert_eq!(job.job, Job::Piecing);
    // T .02 and 2.0 mm: 2.508 to the inch, and an inch of tail at either end of a seam.
    near(job.needle_in, sewn * 2.508 / 2.0 + 24.0);
    assert!(plan.changes.is_empty());
}

#[test]
fn hand_sewing_comes_in_needlefuls_and_has_no_bobbin() {
    let work = Work { applique_in: 100.0, binding_by_hand_in: 264.0, binding_in: 264.0, ..Work::default() };
    let plan = plan(&bare(), &work).unwrap();
    let of = |job: Job| *plan.jobs.iter().find(|found| found.job == job).unwrap();
    // Eight stitches an inch, 1/16 deep: twice the line; 14 of each 18 inches are sewn.
    near(of(Job::Applique).needle_in, (200.0_f64 / 14.0).ceil() * 18.0);
    assert_eq!((of(Job::BindingByHand).bobbin_in, of(Job::BindingByHand).flat_ratio_in), (0.0, None));
    // Five layers where the binding is sewn on.
    near(of(Job::Binding).needle_in, 264.0 * (1.0 + 0.08 * 10.16));
    assert_eq!(plan.jobs.len(), 3);
    near(plan.bobbin_in, of(Job::Binding).bobbin_in);
}

#[test]
fn nothing_to_sew_takes_nothing_and_nonsense_is_refused() {
    let none = plan(&ThreadChoice::default(), &Work::default()).unwrap();
    assert_eq!((none.jobs.len(), none.bobbins, none.total_yd()), (0, 0, 0.0));
    for choice in [
        ThreadChoice { quilting_stitch_mm: 0.0, ..bare() },
        ThreadChoice { batting_in: f64::NAN, ..bare() },
        ThreadChoice { bobbin_yd: 0.0, ..bare() },
        ThreadChoice { needleful_lost_in: 18.0, ..bare() },
        ThreadChoice { waste_percent: -1.0, ..bare() },
    ] {
        assert!(
            plan(&choice, &Work { quilting_strokes_in: vec![10.0], ..Work::default() }).is_err(),
            "{choice:?}"
        );
    }
    let tails = ThreadChoice { bobbin_yd: 1.0, tail_in: 20.0, ..bare() };
    let refused = plan(&tails, &Work { quilting_strokes_in: vec![10.0], ..Work::default() }).unwrap_err();
    assert!(matches!(refused, ThreadProblem::BobbinTooSmall { .. }));
    assert!(plan(&bare(), &Work { binding_in: -1.0, ..Work::default() }).is_err());
    assert_eq!(serde_json::from_str::<ThreadChoice>("{}").unwrap(), ThreadChoice::default());
    assert_eq!(serde_json::from_str::<Work>("{}").unwrap(), Work::default());
}
