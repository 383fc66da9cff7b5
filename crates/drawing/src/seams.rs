//! Seams: sewn ones as stitches, planned ones as chalk, the part left open as a plain line.

use crate::scene::Scene;
use crate::{Item, Stroke, Tag};
use plane::Point;
use quilt::log::{End, Name};
use quilt::table::Seam;

/// All seams that still show, planned ones last.
pub(crate) fn seams(scene: &Scene<'_>) -> Item {
    let (mut sewn, mut open, mut planned) = (Vec::new(), Vec::new(), Vec::new());
    for (name, seam) in scene.top.seams() {
        let Some(ends) = scene.seam_ends(*name, seam) else { continue };
        let (closed, gap) = split(seam, ends);
        let tag = tag(*name, seam);
        if scene.what.is_sewn(name.by) {
            sewn.push(Item::line(closed.to_vec(), Stroke::Stitches).tagged(tag.clone()));
            open.extend(gap.map(|gap| Item::line(gap.to_vec(), Stroke::CutLine).tagged(tag)));
        } else {
            planned.push(Item::line(vec![ends.0, ends.1], Stroke::Chalk).tagged(tag));
        }
    }
    sewn.append(&mut open);
    sewn.append(&mut planned);
    Item::group("seams", sewn)
}

fn tag(name: Name, seam: &Seam) -> Tag {
    Tag::default().with("seam", name).with("order", seam.order)
}

/// The sewn part of a seam and the part that was left open, if any.
fn split(seam: &Seam, (a, b): (Point, Point)) -> ([Point; 2], Option<[Point; 2]>) {
    let length = a.distance(b);
    match seam.open {
        Some((end, open_in)) if open_in > 0.0 && length > 0.0 => {
            let share = (open_in / length).min(1.0);
            match end {
                End::Start => ([a.lerp(b, share), b], Some([a, a.lerp(b, share)])),
                End::End => ([a, b.lerp(a, share)], Some([b.lerp(a, share), b])),
            }
        }
        _ => ([a, b], None),
    }
}
