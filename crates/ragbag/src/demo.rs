//! *Low Tide*: a workroom with a heap of our own prints and a centre grown from it.

use colour::Lab;
use grow::{Effort, Goal};
use quilt::cloth::{Cloth, Kind};
use quilt::wish::{Towards, Wish, even_drift};
use workroom::Workroom;
use workroom::asks::{AskError, Asked, ClothName, GrowAsk};
use workroom::making::read_plan;
use workroom::quilts::MAIN;
use workroom::stash::NewCloth;

/// The demo's quilt.
pub(crate) const QUILT: &str = "Low Tide";

/// The seed it is grown from: of the first sixteen, the one we would hang.
const SEED: u64 = 9;

/// Its two what-ifs, each with its seed.
const WHAT_IFS: [(&str, u64); 2] = [("what-if-1", 1), ("what-if-2", 2)];

/// Colours from the centre outward: sand, rust and coral, then shell grey and mist, then slate and
/// deep green.
const STOPS: usize = 5;

/// The setting that says that the demo is complete.
const COMPLETE: &str = "low tide is complete";

/// Puts the demo into a workroom, unless it is there. Each part is left out that is there already, so
/// that a demo whose making was broken off is finished the next time. `say` hears what takes a while.
///
/// # Errors
/// Trouble with the workroom; a heap that nothing grows from.
pub(crate) fn make(room: &mut Workroom, say: &dyn Fn(&str)) -> Asked<()> {
    make_with(room, Effort::USUAL, say)
}

fn make_with(room: &mut Workroom, effort: Effort, say: &dyn Fn(&str)) -> Asked<()> {
    if room.setting(COMPLETE)?.unwrap_or(false) {
        return Ok(());
    }
    let heap = ::demo::low_tide();
    enter_heap(room, &heap, say)?;
    if room.quilts()?.iter().all(|quilt| quilt.name != QUILT) {
        room.new_quilt(QUILT, &wish(&heap))?;
    }
    if room.head(QUILT, MAIN)?.tip.is_none() {
        say("Growing a centre from them…");
        room.grow(&room.head(QUILT, MAIN)?.at(), &ask(SEED, effort), &mut ())?;
    }
    if room.head(QUILT, MAIN)?.sewn.is_none() {
        sew_a_third(room)?;
    }
    say("Growing it two other ways…");
    for (name, seed) in WHAT_IFS {
        grow_what_if(room, name, ask(seed, effort))?;
    }
    say("Finishing it, as a plan…");
    finish(room)?;
    Ok(room.set(COMPLETE, &true)?)
}

/// The head that shows the piece finished: ring, border, layers, heron, quilting, binding, sleeve.
const FINISHED: &str = "finished";

/// Cut widths of the five strips of the ring's strip set, and how long it is, in inches.
const RING: [f64; 5] = [1.75, 1.5, 2.0, 1.5, 1.75];
const RING_LONG_IN: f64 = 36.0;

/// Finishes the grown piece by the demo's plan, on a head of its own, unless it is there. The cloth
/// for it comes after growing, so that none of it is cut up for patches.
fn finish(room: &mut Workroom) -> Asked<()> {
    let main = room.head(QUILT, MAIN)?;
    if let Ok(head) = room.head(QUILT, FINISHED) {
        if head.tip != main.tip {
            return Ok(());
        }
        room.drop_what_if(&head.at())?;
    }
    let lengths = ::demo::low_tide_lengths();
    enter_heap(room, &lengths, &|_| ())?;
    // Growing on the page leaves what the finishing takes alone.
    let mut wish = room.wish(QUILT)?;
    for scrap in lengths.scraps.iter().filter(|scrap| scrap.cloth.kind != Kind::Batting) {
        let cloth = room.cloth_named(QUILT, MAIN, &ClothName::Name(scrap.cloth.name.clone()))?;
        if !wish.spare.contains(&cloth) {
            wish.spare.push(cloth);
        }
    }
    let sets = |room: &mut Workroom| -> Asked<bool> {
        Ok(room.stash()?.items().any(|item| item.came.kind == Kind::StripSet && item.now.is_some()))
    };
    if !sets(room)? {
        let names = lengths.scraps.iter().take(RING.len()).map(|scrap| scrap.cloth.name.clone());
        let mut strips = Vec::new();
        for (name, width) in names.zip(RING) {
            strips.push((room.cloth_named(QUILT, MAIN, &ClothName::Name(name))?, width));
        }
        wish.spare.push(room.sew_strips(&strips, RING_LONG_IN, Wish::default().allowance_in)?);
    }
    room.set_wish(QUILT, &wish)?;
    let plan = read_plan(::demo::LOW_TIDE_PLAN).map_err(|why| AskError::CantBe {
        what: why.to_string(),
        hint: "The demo's own plan is wrong: please tell us.".to_owned(),
    })?;
    room.finish(&main.at(), Some(FINISHED), &plan, &|_| Ok(::demo::HERON.as_bytes().to_vec()))?;
    Ok(())
}

/// Puts the heap of *Spring Tide* into a workroom, unless it is there: 2,500 scraps, without pictures, and
/// the lengths that its plan takes.
///
/// # Errors
/// Trouble with the workroom.
pub(crate) fn bed_size_heap(room: &mut Workroom, say: &dyn Fn(&str)) -> Asked<()> {
    let stash = room.stash()?;
    let is_there = |cloth: &Cloth| stash.items().any(|item| item.came.name == cloth.name);
    let lengths = ::demo::spring_tide_lengths();
    if lengths.scraps.iter().all(|scrap| is_there(&scrap.cloth)) {
        return Ok(());
    }
    say("Filling the basket with 2,500 scraps…");
    let heap = ::demo::spring_tide();
    let scraps = heap.scraps.into_iter().map(|scrap| (scrap, "spring tide"));
    let all = scraps.chain(lengths.scraps.into_iter().map(|scrap| (scrap, "spring tide, bolts")));
    let new = all.map(|(scrap, of)| NewCloth {
        print_name: scrap.cloth.print.map(|_| format!("{of} {}", scrap.print)),
        ..new_cloth(scrap.cloth, scrap.print)
    });
    let new = new.collect();
    room.enter(new)?;
    Ok(())
}

/// The scraps with their pictures, unless they came already.
fn enter_heap(room: &mut Workroom, heap: &::demo::Heap, say: &dyn Fn(&str)) -> Asked<()> {
    let mut cloths: Vec<Cloth> = heap.cloths();
    let stash = room.stash()?;
    if cloths.iter().all(|cloth| stash.items().any(|item| item.came.name == cloth.name)) {
        return Ok(());
    }
    say("Painting the scraps of the demo…");
    match ::demo::pictures(heap) {
        Ok(pictures) => {
            let printed = |cloth: &Cloth| cloth.print.is_some();
            for (cloth, drawn) in cloths.iter_mut().zip(pictures).filter(|(cloth, _)| printed(cloth)) {
                room.keep_picture(&drawn.png, &drawn.picture.format)?;
                cloth.picture = Some(drawn.picture);
            }
        }
        Err(why) => say(&format!("The scraps stay without pictures: {why}.")),
    }
    let new = heap.scraps.iter().zip(cloths).map(|(scrap, cloth)| new_cloth(cloth, scrap.print)).collect();
    room.enter(new)?;
    Ok(())
}

fn ask(seed: u64, effort: Effort) -> GrowAsk {
    GrowAsk { goal: Goal::Size, effort, seed, across_in: None }
}

/// Sews up to the end of the run that a third of the steps reaches.
fn sew_a_third(room: &mut Workroom) -> Asked<()> {
    let log = room.log(QUILT, MAIN)?;
    let third = log.steps.len() / 3;
    let run = |i: usize| log.steps.get(i).and_then(|step| step.entry.run.as_ref()).map(|run| run.first);
    let upto = (third..log.steps.len()).find(|&i| i + 1 == log.steps.len() || run(i) != run(i + 1));
    if let Some(step) = upto.and_then(|i| log.steps.get(i)) {
        room.sew(&log.head.at(), step.id, true)?;
    }
    Ok(())
}

/// Another way to go on from what is sewn, on a head of its own, unless it has grown already.
fn grow_what_if(room: &mut Workroom, name: &str, ask: GrowAsk) -> Asked<()> {
    let main = room.head(QUILT, MAIN)?;
    let heads = room.quilts()?.into_iter().filter(|quilt| quilt.name == QUILT).flat_map(|quilt| quilt.heads);
    let head = match heads.into_iter().find(|head| head.name == name) {
        Some(head) if head.tip != head.sewn => return Ok(()),
        Some(head) => head,
        None => room.what_if(&main.at(), main.sewn, name)?,
    };
    room.grow(&head.at(), &ask, &mut ())?;
    Ok(())
}

fn new_cloth(cloth: Cloth, print: usize) -> NewCloth {
    NewCloth {
        name: cloth.name,
        kind: cloth.kind,
        outline: cloth.outline,
        flaws: cloth.flaws,
        about: cloth.about,
        look: cloth.look,
        grain: cloth.grain,
        print: None,
        print_name: cloth.print.map(|_| format!("low tide {print}")),
        place: cloth.place,
        facts: cloth.facts,
        picture: cloth.picture,
    }
}

/// Twenty inches across, the colours drifting through those of the heap's own prints, hot to cool.
fn wish(heap: &::demo::Heap) -> Wish {
    let looks: Vec<Lab> = heap.prints.iter().map(|print| print.look().mean()).collect();
    let share = looks.len().div_ceil(STOPS).max(1);
    let mean = |some: &[Lab]| colour::mean(some.iter().map(|lab| (*lab, 1.0)));
    let stops: Vec<Lab> = looks.chunks(share).filter_map(mean).collect();
    let drift = even_drift(&stops);
    Wish { towards: Towards::Round { sides: 7 }, across_in: 20.0, drift, rough_in: 0.125, ..Wish::default() }
}

#[cfg(test)]
mod tests {
    use super::{COMPLETE, MAIN, QUILT, SEED, ask, enter_heap, make_with, wish};
    use grow::Effort;
    use quilt::stage::enough::Shop;
    use workroom::Workroom;

    /// How many cloths, and every head with its tip and what is sewn.
    fn seen(room: &mut Workroom) -> (usize, Vec<workroom::quilts::Head>) {
        let cloths = room.stash().unwrap().items().count();
        (cloths, room.quilts().unwrap().into_iter().flat_map(|quilt| quilt.heads).collect())
    }

    #[test]
    fn a_demo_that_was_broken_off_is_finished_without_entering_a_scrap_twice() {
        let folder = tempfile::tempdir().unwrap();
        let mut room = Workroom::create(&folder.path().join("room")).unwrap();
        let heap = ::demo::low_tide();
        // Broken off after the scraps came; then after the piece had grown, before it was sewn.
        enter_heap(&mut room, &heap, &|_| ()).unwrap();
        assert_eq!(seen(&mut room).0, heap.scraps.len());
        enter_heap(&mut room, &heap, &|_| ()).unwrap();
        assert_eq!(seen(&mut room).0, heap.scraps.len());
        let head = room.new_quilt(QUILT, &wish(&heap)).unwrap();
        let grown = room.grow(&head.at(), &ask(SEED, Effort::QUICK), &mut ()).unwrap().head;
        make_with(&mut room, Effort::QUICK, &|_| ()).unwrap();
        let main = room.head(QUILT, MAIN).unwrap();
        assert_eq!(main.tip, grown.tip, "what had grown stays");
        assert!(main.sewn.is_some());
        let (cloths, heads) = seen(&mut room);
        assert_eq!(heads.len(), 4);
        assert!(heads.iter().all(|head| head.tip != head.sewn));
        // What the wish alone would have had one buy is enough for what was cut, and no pile.
        let rates = room.habits().unwrap().rates;
        let used = room.takes(QUILT, MAIN, &Shop::default(), &rates).unwrap().used;
        let cut: f64 = used.prints.iter().map(|print| print.cut_in2).sum();
        let wished = quilt::sums::wished(&wish(&heap)).unwrap();
        let bought = wished.colours.iter().map(|colour| colour.cut_in2).sum::<f64>() + wished.sparks_in2;
        let bought = quilt::sums::WASTE * bought;
        assert!(cut < bought && bought < 1.5 * cut, "{cut} square inches cut, {bought} bought");
        // Broken off at the very end: nothing is done again.
        room.set(COMPLETE, &false).unwrap();
        make_with(&mut room, Effort::QUICK, &|_| ()).unwrap();
        assert_eq!(seen(&mut room), (cloths, heads));
    }
}
