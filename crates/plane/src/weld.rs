//! Welding: before a boolean operation, corners that nearly coincide become one, and a corner
//! that nearly lies on another ring's side is put into that side.
//!
//! Two patches that share a seam, turned and shifted by separate poses, differ in the last bits;
//! without welding their union keeps a slit along the seam. Works on lattice nodes; the radius is
//! in lattice steps. Cost: for each side the nodes in its span of x, found by binary search.

use crate::lattice::Node;

/// Welds all rings together, in place. Rings that collapse keep fewer than three nodes.
pub(crate) fn weld(rings: &mut [Vec<Node>], radius_steps: f64) {
    let nodes = merge_nodes(rings, radius_steps);
    for ring in rings {
        ring.dedup();
        while ring.len() > 1 && ring.first() == ring.last() {
            ring.pop();
        }
        insert_nodes(ring, &nodes, radius_steps);
    }
}

/// Replaces nodes closer than the radius by the leftmost of them; returns those left, by x.
fn merge_nodes(rings: &mut [Vec<Node>], radius: f64) -> Vec<Node> {
    let mut nodes: Vec<Node> = rings.iter().flatten().copied().collect();
    nodes.sort_unstable_by_key(|n| (n.x, n.y));
    nodes.dedup();
    let mut kept: Vec<Node> = Vec::with_capacity(nodes.len());
    let mut moved: Vec<(Node, Node)> = Vec::new();
    for node in nodes {
        let near = kept
            .iter()
            .rev()
            .take_while(|k| steps(node.x, k.x) <= radius)
            .find(|k| steps(node.x, k.x).hypot(steps(node.y, k.y)) <= radius);
        match near {
            Some(&k) => moved.push((node, k)),
            None => kept.push(node),
        }
    }
    if !moved.is_empty() {
        for node in rings.iter_mut().flatten() {
            if let Ok(i) = moved.binary_search_by_key(&(node.x, node.y), |(from, _)| (from.x, from.y)) {
                *node = moved[i].1;
            }
        }
    }
    kept
}

fn insert_nodes(ring: &mut Vec<Node>, nodes: &[Node], radius: f64) {
    let mut welded = Vec::with_capacity(ring.len() + 4);
    let mut on_side: Vec<(f64, Node)> = Vec::new();
    for (i, &a) in ring.iter().enumerate() {
        let b = ring[(i + 1) % ring.len()];
        welded.push(a);
        on_side.clear();
        gather_on_side(a, b, nodes, radius, &mut on_side);
        on_side.sort_by(|(s, _), (t, _)| s.total_cmp(t));
        welded.extend(on_side.iter().map(|&(_, node)| node));
    }
    *ring = welded;
}

/// The nodes within the radius of the side from `a` to `b`, with their place along it.
fn gather_on_side(a: Node, b: Node, nodes: &[Node], radius: f64, found: &mut Vec<(f64, Node)>) {
    let (dx, dy) = (steps(b.x, a.x), steps(b.y, a.y));
    let length = dx.hypot(dy);
    if length <= 2.0 * radius {
        return;
    }
    let slack = radius.ceil() as i64;
    let (left, right) = (a.x.min(b.x) - slack, a.x.max(b.x) + slack);
    let (low, high) = (a.y.min(b.y) - slack, a.y.max(b.y) + slack);
    let first = nodes.partition_point(|n| n.x < left);
    for &node in nodes[first..].iter().take_while(|n| n.x <= right) {
        if node.y < low || node.y > high {
            continue;
        }
        let (px, py) = (steps(node.x, a.x), steps(node.y, a.y));
        let along = (px * dx + py * dy) / length;
        let off = (px * dy - py * dx) / length;
        if off.abs() <= radius && along > radius && along < length - radius {
            found.push((along, node));
        }
    }
}

fn steps(to: i64, from: i64) -> f64 {
    (to - from) as f64
}
