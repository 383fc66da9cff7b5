//! Thread, of which there may be miles: its lines stand once, in whole parts of an inch and as steps.

use super::export::{drop_ref, tagged};
use super::writer::Writer;
use crate::ink::INK;
use crate::thread::thinned;
use crate::{Tag, ThreadItem};
use plane::fill;

/// Thread is written in whole parts of an inch, so many of them, about as coarse as curves of quilting
/// are cut into straight pieces. One part, .0125, has no more decimals than are written.
const THREAD_PARTS: f64 = 80.0;

/// Thread: its lines stand once, in whole parts of an inch, and are drawn as shade and thread.
pub(super) fn write(to: &mut Writer, id: &str, tag: &Tag, thread: &ThreadItem) {
    let parts = |inches: f64| inches * THREAD_PARTS;
    to.element(
        "g",
        |a| {
            tagged(a, tag);
            a.text("fill", "none").text("stroke-linejoin", "round");
            a.transform([1.0 / THREAD_PARTS, 0.0, 0.0, 1.0 / THREAD_PARTS, 0.0, 0.0]);
        },
        |to| {
            to.line_break();
            to.element("defs", |_| {}, |to| lines(to, id, &thread.strokes));
            let used = format!("#{id}");
            if thread.shade_in > 0.0 {
                to.empty("use", |a| {
                    a.text("href", &used).text("stroke", &INK.to_string()).number("stroke-opacity", 0.22);
                    a.number("stroke-width", parts(thread.width_in + 2.0 * thread.shade_in));
                    a.text("stroke-linecap", "round");
                });
            }
            to.empty("use", |a| {
                a.text("href", &used).text("stroke", &thread.colour.to_string());
                a.number("stroke-width", parts(thread.width_in));
                match thread.dash_in {
                    Some(dash) => drop_ref(a.numbers("stroke-dasharray", &dash.map(parts))),
                    None => drop_ref(a.text("stroke-linecap", "round")),
                }
            });
        },
    );
    to.line_break();
}

/// One path a stroke, without places that make less than half a part of difference.
fn lines(to: &mut Writer, id: &str, strokes: &[fill::Stroke]) {
    to.element(
        "g",
        |a| drop_ref(a.text("id", id)),
        |to| {
            to.line_break();
            for stroke in strokes {
                let points = thinned(&stroke.points, 0.5 / THREAD_PARTS);
                to.empty("path", |a| drop_ref(a.steps(&points, stroke.closed, THREAD_PARTS)));
                to.line_break();
            }
        },
    );
}
