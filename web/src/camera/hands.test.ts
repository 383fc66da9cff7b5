// Oracles: what a hand holds stays under it; no outside source.

import { expect, it } from "vitest";
import { toCloth, toScreen, type Camera } from "./camera";
import { lifted, moved, NO_HANDS, pressed } from "./hands";
import { clothPoint, screenPoint } from "./points";

const view = { width: 400, height: 400 };
const start: Camera = { scale: 20, middle: clothPoint(0, 0) };

it("a touch that trembles is not a drag", () => {
  const down = pressed(NO_HANDS, 1, screenPoint(100, 100));
  const after = moved(down, 1, screenPoint(102, 102), start, view);
  expect(after.hands.dragging).toBe(false);
  expect(after.camera).toEqual(start);
});

it("a drag carries the place it took hold of, tremble and all", () => {
  const down = pressed(NO_HANDS, 1, screenPoint(100, 100));
  const held = toCloth(start, view, screenPoint(100, 100));
  const first = moved(down, 1, screenPoint(103, 100), start, view);
  const then = moved(first.hands, 1, screenPoint(180, 60), first.camera, view);
  const seen = toScreen(then.camera, view, held);
  expect([seen.x, seen.y]).toEqual([180, 60]);
});

it("two fingers zoom, and lifting one goes on as a drag without a jump", () => {
  let hands = pressed(pressed(NO_HANDS, 1, screenPoint(150, 200)), 2, screenPoint(250, 200));
  let camera = start;
  ({ hands, camera } = moved(hands, 2, screenPoint(350, 200), camera, view));
  expect(camera.scale).toBeCloseTo(40, 9);
  hands = lifted(hands, 1);
  const before = camera;
  ({ hands, camera } = moved(hands, 2, screenPoint(351, 200), camera, view));
  expect(camera.scale).toBe(before.scale);
  expect(camera.middle.x).toBeCloseTo(before.middle.x - 1 / 40, 9);
  expect(lifted(hands, 2)).toEqual(NO_HANDS);
});

it("a finger that never came down moves nothing", () => {
  expect(moved(NO_HANDS, 7, screenPoint(1, 1), start, view).camera).toBe(start);
});
