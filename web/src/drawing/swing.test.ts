// Oracles: points on the line stay, twice folded is unfolded; no outside source.

import { expect, it } from "vitest";
import { squeezed, swung, type Matrix, type Spot } from "./swing";

const through = (m: Matrix, [x, y]: Spot): Spot => [
  m[0] * x + m[2] * y + m[4],
  m[1] * x + m[3] * y + m[5],
];
const from: Spot = [1, 2];
const to: Spot = [4, 3.5];

it("the seam line itself does not move", () => {
  for (const share of [-1, -0.3, 0, 0.5, 1]) {
    for (const along of [-2, 0, 0.5, 3]) {
      const on: Spot = [from[0] + along * 3, from[1] + along * 1.5];
      const after = through(squeezed(from, to, share), on);
      expect(after[0]).toBeCloseTo(on[0], 9);
      expect(after[1]).toBeCloseTo(on[1], 9);
    }
  }
});

it("folded over twice is open again, and edge-on lies on the line", () => {
  const folded = squeezed(from, to, -1);
  const spot: Spot = [-3, 7];
  const back = through(folded, through(folded, spot));
  expect(back[0]).toBeCloseTo(spot[0], 9);
  expect(back[1]).toBeCloseTo(spot[1], 9);
  const [x, y] = through(squeezed(from, to, 0), spot);
  expect((x - from[0]) * (to[1] - from[1]) - (y - from[1]) * (to[0] - from[0])).toBeCloseTo(0, 9);
});

it("swings from folded over to open", () => {
  expect(swung(0)).toBe(-1);
  expect(swung(0.5)).toBeCloseTo(0, 12);
  expect(swung(2)).toBe(1);
  expect(squeezed(from, from, 0)).toEqual([1, 0, 0, 1, 0, 0]);
});
