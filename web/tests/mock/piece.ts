// A piece that grows round, as simply as the page's tests need one: a convex outline of lines, of
// which the one nearest to the middle is pushed outwards for each patch. No trade rule is kept
// here; the program is the one that knows them.

import { numbers } from "./prints";

type Spot = [number, number];

/** A patch: its corners in inches, y upwards, its print, and the seam that holds it. */
export interface MockPatch {
  readonly name: string;
  readonly print: number;
  readonly corners: readonly Spot[];
  readonly seam: readonly [Spot, Spot] | null;
}

/** The piece after each patch: the outline and its sides' names. */
export interface MockState {
  readonly patches: readonly MockPatch[];
  readonly corners: readonly Spot[];
  readonly sides: readonly string[];
}

interface SideLine {
  readonly name: string;
  readonly angle: number;
  readonly reach: number;
}

/** The states of a piece of `count` patches. */
export function grown(count: number, seed: number): MockState[] {
  const any = numbers(seed);
  let lines: SideLine[] = Array.from({ length: 6 }, (_, i) => ({
    name: `0${"abcdef"[i] ?? ""}`,
    angle: (i * Math.PI) / 3 + any(-0.15, 0.15),
    reach: any(0.9, 1.1),
  }));
  let patches: MockPatch[] = [{ name: "0a", print: 1, corners: cornersOf(lines), seam: null }];
  const states: MockState[] = [state(patches, lines)];
  for (let no = 1; no < count; no += 1) {
    const at = nearest(lines);
    const corners = cornersOf(lines);
    const [from, to] = [corner(corners, at - 1), corner(corners, at)];
    const old = lines[at];
    if (!old) break;
    const pushed = {
      name: `${no}a`,
      angle: old.angle + any(-0.13, 0.13),
      reach: old.reach + any(0.7, 1.5),
    };
    lines = lines.map((line, i) => (i === at ? pushed : line));
    const after = cornersOf(lines);
    const reach = Math.hypot((from[0] + to[0]) / 2, (from[1] + to[1]) / 2);
    const print = Math.min(6, Math.max(0, Math.round(reach * 0.8 + any(-1, 1))));
    patches = [
      ...patches,
      {
        name: `${no}a`,
        print,
        corners: [from, corner(after, at - 1), corner(after, at), to],
        seam: [from, to],
      },
    ];
    states.push(state(patches, lines));
  }
  return states;
}

function state(patches: readonly MockPatch[], lines: readonly SideLine[]): MockState {
  return { patches, corners: cornersOf(lines), sides: lines.map((line) => line.name) };
}

function nearest(lines: readonly SideLine[]): number {
  return lines.reduce(
    (best, line, i) => (line.reach < (lines[best]?.reach ?? Infinity) ? i : best),
    0,
  );
}

const corner = (corners: readonly Spot[], i: number): Spot =>
  corners[(i + corners.length) % corners.length] ?? [0, 0];

/** Corner `i` lies where line `i` meets the next one. */
function cornersOf(lines: readonly SideLine[]): Spot[] {
  return lines.map((line, i) => {
    const next = lines[(i + 1) % lines.length] ?? line;
    const [a, b] = [Math.cos(line.angle), Math.sin(line.angle)];
    const [c, d] = [Math.cos(next.angle), Math.sin(next.angle)];
    const by = a * d - b * c;
    return [(line.reach * d - next.reach * b) / by, (a * next.reach - c * line.reach) / by];
  });
}
