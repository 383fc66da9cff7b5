// The corners of an outline under the hand: moved, put in, taken out. Whether what comes of it is an
// outline is for the program to say.

/** A place on the table in inches, x to the right and y up. */
export type Place = readonly [number, number];

/** The fewest corners of an outline. */
export const FEWEST = 3;

/** How far an arrow key moves a corner, in inches; with Shift, four times as far. */
export const STEP_IN = 1 / 16;

const ARROWS: Readonly<Record<string, Place>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** The outline with a corner somewhere else. */
export function moved(outline: readonly Place[], which: number, to: Place): Place[] {
  return outline.map((place, i) => (i === which ? to : place));
}

/** The outline with a corner moved by an arrow key, or null for another key. */
export function nudged(
  outline: readonly Place[],
  which: number,
  key: string,
  far: boolean,
): Place[] | null {
  const way = ARROWS[key];
  const from = outline[which];
  if (!way || !from) return null;
  const step = STEP_IN * (far ? 4 : 1);
  return moved(outline, which, [from[0] + way[0] * step, from[1] + way[1] * step]);
}

/** The outline with a new corner midway along the side that begins at `side`. */
export function withCorner(outline: readonly Place[], side: number): Place[] {
  const middle = midway(outline, side);
  return middle
    ? [...outline.slice(0, side + 1), middle, ...outline.slice(side + 1)]
    : [...outline];
}

/** The outline without a corner; null when too few would be left. */
export function withoutCorner(outline: readonly Place[], which: number): Place[] | null {
  return outline.length > FEWEST ? outline.filter((_, i) => i !== which) : null;
}

/** The corner that lies nearest to a place. */
export function nearest(outline: readonly Place[], to: Place): number {
  const off = outline.map(([x, y]) => Math.hypot(x - to[0], y - to[1]));
  return off.indexOf(Math.min(...off));
}

/** The middle of the side that begins at `side`. */
export function midway(outline: readonly Place[], side: number): Place | null {
  const [from, to] = [outline[side], outline[(side + 1) % outline.length]];
  return from && to ? [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2] : null;
}

/** The upright box round places, `beyond` inches larger on each side: left, bottom, width, height. */
export function boxRound(
  places: readonly Place[],
  beyond: number,
): readonly [number, number, number, number] {
  const [xs, ys] = [places.map(([x]) => x), places.map(([, y]) => y)];
  const [left, bottom] = [Math.min(...xs) - beyond, Math.min(...ys) - beyond];
  return [left, bottom, Math.max(...xs) + beyond - left, Math.max(...ys) + beyond - bottom];
}

/** A ring as path data, y down as drawings have it. */
export function ringPath(ring: readonly Place[]): string {
  return ring.length === 0 ? "" : `M${ring.map(([x, y]) => `${x} ${-y}`).join("L")}Z`;
}
