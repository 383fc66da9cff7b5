// Oracles: inverses and counts; no outside source.

import { expect, it } from "vitest";
import {
  boxRound,
  midway,
  moved,
  nearest,
  nudged,
  ringPath,
  STEP_IN,
  withCorner,
  withoutCorner,
  type Place,
} from "./corners";

const square: readonly Place[] = [
  [0, 0],
  [4, 0],
  [4, 4],
  [0, 4],
];

it("a corner goes where it is moved, and the others stay", () => {
  expect(moved(square, 2, [5, 5])).toEqual([
    [0, 0],
    [4, 0],
    [5, 5],
    [0, 4],
  ]);
});

it("arrow keys move by a step and back again, up is up, and Shift goes farther", () => {
  const up = nudged(square, 0, "ArrowUp", false) ?? [];
  expect(up[0]).toEqual([0, STEP_IN]);
  expect(nudged(up, 0, "ArrowDown", false)).toEqual(square);
  expect(nudged(square, 0, "ArrowLeft", true)?.[0]).toEqual([-4 * STEP_IN, 0]);
  expect(nudged(square, 0, "Enter", false)).toBeNull();
  expect(nudged(square, 9, "ArrowUp", false)).toBeNull();
});

it("a corner put in lies midway on its side and can be taken out again", () => {
  const more = withCorner(square, 3);
  expect(more).toHaveLength(5);
  expect(more[4]).toEqual([0, 2]);
  expect(midway(square, 3)).toEqual([0, 2]);
  expect(withoutCorner(more, 4)).toEqual(square);
});

it("of corners close together the nearest is taken", () => {
  const close: readonly Place[] = [
    [0, 0],
    [4, 0],
    [0.1, 0.2],
  ];
  expect(nearest(close, [0.02, 0.05])).toBe(0);
  expect(nearest(close, [0.09, 0.18])).toBe(2);
  expect(nearest(close, [90, 0])).toBe(1);
});

it("a triangle keeps its corners", () => {
  expect(withoutCorner(square.slice(0, 3), 0)).toBeNull();
});

it("the box goes round with room to spare, and a ring is drawn y down", () => {
  expect(boxRound(square, 1)).toEqual([-1, -1, 6, 6]);
  expect(ringPath(square)).toBe("M0 0L4 0L4 -4L0 -4Z");
});
