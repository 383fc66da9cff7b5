//! What a plan file says, and what is said of one that can't be read.

use workroom::asks::StageAsk;
use workroom::making::{PlanStage, read_plan};

#[test]
fn a_plan_is_read_in_its_order() {
    let plan = read_plan(
        "quilt = \"Ebb\"\n[grow]\nseed = 3\nacross_in = 12\n\
         [[stage]]\nborder = { cloth = \"ripple\", sewn_in = 2.5, first_side = 2, order = \"mitred\" }\n\
         [[stage]]\nfigure = { svg = \"heron.svg\", height_in = 6, cloths = { body = 12 } }\n\
         [[stage]]\nquilting = { design = \"unbroken_spiral\", spacing_in = 0.5 }\n",
    )
    .expect("a plan");
    let names: Vec<&str> = plan.stages.iter().map(PlanStage::name).collect();
    assert_eq!(names, ["border", "figure", "quilting"]);
    assert_eq!(plan.quilt.as_deref(), Some("Ebb"));
    let PlanStage::Ask(ask) = &plan.stages[0] else { panic!("a border") };
    let StageAsk::Border { choice, .. } = &**ask else { panic!("a border") };
    assert_eq!((choice.sewn_in.as_slice(), choice.first_side), (&[2.5][..], 1));
}

#[test]
fn several_centres_are_read() {
    let plan = read_plan(
        "[centres]\ncount = 4\nsize_in = [30, 40]\nshapes_in = [[12, 18]]\ncoping = [3, \"mist\"]\n",
    );
    let centres = plan.expect("a plan").centres.expect("centres");
    assert_eq!((centres.count, centres.coping.len(), centres.partial_seams), (Some(4), 2, true));
}

#[test]
fn what_is_wrong_is_told_with_its_stage_and_key_in_plain_words() {
    for (text, said) in [
        (
            "[[stage]]\nquilting = { spacng_in = 0.5 }\n",
            "stage 1 of the plan, quilting, doesn't know `spacng_in`: check how it is spelled",
        ),
        (
            "[[stage]]\nlayers = { backing = { bolts = [{ name = \"a\", usable_in = 42 }, { name = \"b\", usable_in = 42, colour = 1 }] } }\n",
            "stage 1 of the plan, layers, doesn't know `backing.bolts.2.colour`: check how it is spelled",
        ),
        ("[[stage]]\nring = { cloth = 1 }\n", "stage 1 of the plan, ring: `slice_in` is missing"),
        (
            "[[stage]]\nring = { cloth = 1, slice_in = \"wide\" }\n",
            "stage 1 of the plan, ring, slice_in: `wide` can't be read as a measure. Write it as in 2 1/4",
        ),
        (
            "[[stage]]\nborder = { sewn_in = 2, first_side = 0 }\n",
            "stage 1 of the plan, border: first_side: sides are counted from 1",
        ),
        (
            "[[stage]]\nborder = { sewn_in = 2, first_side = -9223372036854775808 }\n",
            "stage 1 of the plan, border: first_side: sides are counted from 1",
        ),
        (
            "[[stage]]\nborder = { sewn_in = 2, order = \"round\" }\n",
            "stage 1 of the plan, border: order: `round` is not known here; known are `apart_first`, `in_turn`, `in_turn_partial`, `mitred`",
        ),
        (
            "[[stage]]\nborder = { sewn_in = 2, cloth = 2.5 }\n",
            "stage 1 of the plan, border: cloth: a cloth is named by its number, or by its name in quotes",
        ),
        ("[grow]\nseeds = 1\n", "the plan's [grow]: `seeds` is not known here; known are"),
        ("[grow]\nsides = -1\n", "the plan's [grow]: sides: the number -1 stands where a whole number"),
        ("[grow]\nacross_in = \"half\"\n", "the plan's [grow], across_in: `half` can't be read as a measure"),
        ("[grow]\nacross_in = nan\n", "the plan's grow.across_in: NaN is no number to sew by"),
        ("[centres]\nsize_in = [3]\n", "the plan's [centres]: size_in: 1 is given where a list of 2"),
        ("hem = 3\n", "the plan's `hem`: it is not known; known are quilt"),
        ("stage = 3\n", "the plan's stages: each begins with [[stage]]"),
        ("[[stage]]\nhem = {}\n", "stage 1 of the plan, hem: there is no such stage; there are ring"),
        ("[[stage]]\nborder = 3\n", "stage 1 of the plan, border: what it says belongs in a table"),
        ("[[stage]]\n", "names nothing"),
        ("quilt = \"Ebb\"\nquilt = ", "line 2 of the plan can't be read: `quilt =`. Write a name"),
        (
            "quilt = \"a\"\nquilt = \"b\"\n",
            "line 2 of the plan can't be read: `quilt = \"b\"`. It is said twice",
        ),
    ] {
        let told = read_plan(text).expect_err(text).to_string();
        assert!(told.starts_with(said) || told.contains(said) && said == "names nothing", "{told}");
        for word in ["f64", "usize", "struct", "variant", "enum", "field", "expected", "TOML"] {
            assert!(!told.contains(word), "{told}");
        }
    }
}

#[test]
fn lengths_are_read_as_makers_write_them() {
    let read = |text: &str| read_plan(text).map(|plan| (plan.stages, plan.grow));
    for (words, numbers) in [
        (
            "[[stage]]\nborder = { cloth = \"ripple\", sewn_in = \"2 1/2\" }\n",
            "[[stage]]\nborder = { cloth = \"ripple\", sewn_in = 2.5 }\n",
        ),
        (
            "[[stage]]\nborder = { sewn_in = [\"2 1/2\", 3] }\n",
            "[[stage]]\nborder = { sewn_in = [2.5, 3] }\n",
        ),
        (
            // A centimetre is 1/2.54 inch by definition.
            "[[stage]]\nquilting = { machine = { arm = { room_in = \"25.4 cm\" } } }\n",
            "[[stage]]\nquilting = { machine = { arm = { room_in = 10.0 } } }\n",
        ),
        (
            "[[stage]]\nfigure = { svg = \"heron\", from_middle_in = [\"-1 1/2\", 2] }\n",
            "[[stage]]\nfigure = { svg = \"heron\", from_middle_in = [-1.5, 2] }\n",
        ),
        ("[grow]\nacross_in = \"1 ft\"\n", "[grow]\nacross_in = 12\n"),
    ] {
        assert_eq!(read(words).expect(words), read(numbers).expect(numbers));
    }
}
