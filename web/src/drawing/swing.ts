// A patch that is pressed swings open about its seam line. Seen from above, a point at distance h
// from the line moves to h·cos of the angle swung: a squeeze across the line, and past upright the
// wrong side faces up.

/** A place in the drawing's coordinates. */
export type Spot = readonly [number, number];

/** An SVG matrix: x' = a x + c y + e, y' = b x + d y + f. */
export type Matrix = readonly [number, number, number, number, number, number];

/**
 * The squeeze by `share` across the line through two places: 1 leaves all as it is, 0 is edge-on,
 * -1 is folded over. Without a line (both places the same) nothing moves.
 */
export function squeezed(from: Spot, to: Spot, share: number): Matrix {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (length === 0) return [1, 0, 0, 1, 0, 0];
  const [nx, ny] = [-(to[1] - from[1]) / length, (to[0] - from[0]) / length];
  const less = share - 1;
  const a = 1 + less * nx * nx;
  const d = 1 + less * ny * ny;
  const across = less * nx * ny;
  return [
    a,
    across,
    across,
    d,
    from[0] - a * from[0] - across * from[1],
    from[1] - across * from[0] - d * from[1],
  ];
}

/** How far the patch shows at `progress` from 0 (folded over) to 1 (open), gently at both ends. */
export const swung = (progress: number): number =>
  -Math.cos(Math.PI * Math.min(1, Math.max(0, progress)));
