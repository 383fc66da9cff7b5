//! *Low Tide*: a workroom with a heap of our own prints and a centre grown from it.

use colour::Lab;
use grow::{Effort, Goal};
use quilt::cloth::Cloth;
use quilt::wish::{Towards, Wish, even_drift};
use workroom::Workroom;
use workroom::asks::{Asked, GrowAsk};
use workroom::stash::NewCloth;

/// The demo's quilt.
pub(crate) const QUILT: &str = "Low Tide";

/// The seed it is grown from: of the first forty, the one we would hang.
const SEED: u64 = 7;

/// Colours from the centre outward: sand, rust and coral, then shell grey and mist, then slate and
/// deep green.
const STOPS: usize = 5;

/// Puts the demo into a workroom, unless it is there. `say` hears what takes a while.
pub(crate) fn make(room: &mut Workroom, say: &dyn Fn(&str)) -> Asked<()> {
    if room.quilts()?.iter().any(|quilt| quilt.name == QUILT) {
        return Ok(());
    }
    let heap = ::demo::low_tide();
    say("Painting the scraps of the demo…");
    let mut cloths: Vec<Cloth> = heap.cloths();
    if let Ok(pictures) = ::demo::pictures(&heap) {
        for (cloth, drawn) in cloths.iter_mut().zip(pictures) {
            room.keep_picture(&drawn.png, &drawn.picture.format)?;
            cloth.picture = Some(drawn.picture);
        }
    }
    let wish = wish(&heap);
    let new = heap.scraps.iter().zip(cloths).map(|(scrap, cloth)| new_cloth(cloth, scrap.print)).collect();
    room.enter(new)?;
    let head = room.new_quilt(QUILT, &wish)?;
    say("Growing a centre from them…");
    let ask = GrowAsk { goal: Goal::Size, effort: Effort::USUAL, seed: SEED };
    let report = room.grow(&head.at(), &ask, &mut ())?;
    let log = room.log(QUILT, &report.head.name)?;
    let third = log.steps.len() / 3;
    // Up to the end of the run that a third of the steps reaches.
    let run = |i: usize| log.steps[i].entry.run.as_ref().map(|run| run.first);
    let upto = (third..log.steps.len()).find(|&i| i + 1 == log.steps.len() || run(i) != run(i + 1));
    if let Some(step) = upto.and_then(|i| log.steps.get(i)) {
        room.sew(&report.head.at(), step.id, true)?;
    }
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
        print_name: Some(format!("low tide {print}")),
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
