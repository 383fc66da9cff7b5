// The sewing log as a tape measure: where its marks lie and which of them are in sight.
//
// The tape runs under a needle that stands still. A place on the tape is a number of steps done:
// 0 is the empty table, `n` lies after the nth entry. Only what is in sight is drawn, so that a log
// of thousands of steps costs no more than a short one.

/** Pixels from one step to the next. */
export const STEP = 30;

/** Where a place lies, in pixels from the needle, when the tape stands at `at`. */
export const offset = (place: number, at: number, step = STEP): number => (place - at) * step;

/** The place under the needle after the tape was pulled `pixels` to the right. */
export function pulled(at: number, pixels: number, last: number, step = STEP): number {
  return Math.min(last, Math.max(0, at - pixels / step));
}

/** The nearest whole place. */
export const settled = (at: number, last: number): number =>
  Math.min(last, Math.max(0, Math.round(at)));

/** The first and the last place in sight on a window `width` pixels wide, with one to spare. */
export function inSight(at: number, width: number, last: number, step = STEP): [number, number] {
  const reach = Math.ceil(width / 2 / step) + 1;
  const first = Math.max(0, Math.floor(at) - reach);
  return [Math.min(first, last), Math.min(last, Math.ceil(at) + reach)];
}

/** Which places carry a numeral: every fifth. */
export const hasNumeral = (place: number): boolean => place % 5 === 0;
