// How large a cloth is drawn in the heap. A few fixed scales, so that two scraps beside each other
// can be compared at a glance, and a bolt does not push everything aside.

/** The scales, in pixels an inch, from scraps to bolts. */
export const SCALES = [24, 18, 12, 8, 5, 3, 2, 1] as const;

/** The largest of the scales at which the cloth is no larger than `room` pixels either way. */
export function scaleFor(width_in: number, height_in: number, room: number): number {
  const longest = Math.max(width_in, height_in);
  return SCALES.find((scale) => longest * scale <= room) ?? room / Math.max(longest, 1);
}

/** How far apart the marks of the little ruler are, in inches, so that they stay readable. */
export function rulerStep(scale: number): number {
  return [1, 2, 3, 6, 12, 36].find((step) => step * scale >= 6) ?? 36;
}
