// The sewing log as a tape measure: where its marks lie and which of them are in sight.
//
// The tape runs under a needle that stands still. A place on the tape is a number of steps done:
// 0 is the empty table, `n` lies after the nth entry. Only what is in sight is drawn, so that a log
// of thousands of steps costs no more than a short one.

/** Pixels from one step to the next. */
export const STEP = 26;

/** Where a place lies, in pixels from the needle, when the tape stands at `at`. */
export const offset = (place: number, at: number, step = STEP): number => (place - at) * step;

/** The place under the needle after the tape was pulled `pixels` to the right. */
export function pulled(at: number, pixels: number, last: number, step = STEP): number {
  return Math.min(last, Math.max(0, at - pixels / step));
}

/** The nearest whole place. */
export const settled = (at: number, last: number): number =>
  Math.min(last, Math.max(0, Math.round(at)));

/** The first and the last place in sight with `before` pixels ahead of the needle and `after` past it. */
export function inSight(
  at: number,
  before: number,
  after: number,
  last: number,
  step = STEP,
): [number, number] {
  const first = Math.floor(at) - Math.ceil(before / step) - 1;
  const final = Math.ceil(at) + Math.ceil(after / step) + 1;
  return [Math.min(Math.max(0, first), last), Math.min(last, final)];
}

/** Which places carry a numeral: every fifth. */
export const hasNumeral = (place: number): boolean => place % 5 === 0;
