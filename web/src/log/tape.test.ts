// Oracles: inverses and bounds; no outside source.

import { expect, it } from "vitest";
import { inSight, offset, pulled, settled, STEP } from "./tape";

it("a mark that was pulled under the needle is under the needle", () => {
  for (const place of [0, 1, 7, 39, 40]) {
    const at = pulled(12, -offset(place, 12), 40);
    expect(at).toBeCloseTo(place, 9);
    expect(offset(place, at)).toBeCloseTo(0, 9);
  }
});

it("the tape cannot be pulled off either end", () => {
  expect(pulled(3, 1e6, 40)).toBe(0);
  expect(pulled(3, -1e6, 40)).toBe(40);
  expect(settled(40.4, 40)).toBe(40);
  expect(settled(-0.4, 40)).toBe(0);
});

it("every mark in the window is drawn, and not many more", () => {
  for (const at of [0, 0.5, 20, 1999.7, 2000]) {
    for (const [before, after] of [
      [250, 140],
      [1000, 440],
    ] as const) {
      const [first, last] = inSight(at, before, after, 2000);
      for (let place = 0; place <= 2000; place += 1) {
        const from = offset(place, at);
        if (from >= -before && from <= after) expect(place >= first && place <= last).toBe(true);
      }
      expect((last - first) * STEP).toBeLessThanOrEqual(before + after + 6 * STEP);
    }
  }
});

it("an empty log has one place", () => {
  expect(inSight(0, 450, 450, 0)).toEqual([0, 0]);
});
