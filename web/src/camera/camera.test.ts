// Oracles: inverses and places that must not move; no outside source.

import { describe, expect, it } from "vitest";
import * as camera from "./camera";
import { clothPoint, screenPoint } from "./points";

const view = { width: 900, height: 600 };

/** A small generator of our own (a 32-bit linear congruence), so that every run is the same. */
function numbers(seed: number): (least: number, most: number) => number {
  let state = seed >>> 0;
  return (least, most) => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return least + ((most - least) * state) / 2 ** 32;
  };
}

function each(check: (any: (least: number, most: number) => number) => void): void {
  for (let seed = 1; seed <= 200; seed += 1) check(numbers(seed));
}

const someCamera = (any: (least: number, most: number) => number): camera.Camera => ({
  scale: any(3, 400),
  middle: clothPoint(any(-40, 40), any(-40, 40)),
});

describe("the camera", () => {
  it("finds the place on the cloth that it showed", () => {
    each((any) => {
      const from = someCamera(any);
      const at = clothPoint(any(-50, 50), any(-50, 50));
      const back = camera.toCloth(from, view, camera.toScreen(from, view, at));
      expect(back.x).toBeCloseTo(at.x, 9);
      expect(back.y).toBeCloseTo(at.y, 9);
    });
  });

  it("keeps the place under the pointer still when it zooms, at the limits too", () => {
    each((any) => {
      const from = someCamera(any);
      const about = screenPoint(any(0, 900), any(0, 600));
      const under = camera.toCloth(from, view, about);
      const to = camera.zoomed(from, view, about, any(0.001, 50));
      const seen = camera.toScreen(to, view, under);
      expect(seen.x).toBeCloseTo(about.x, 6);
      expect(seen.y).toBeCloseTo(about.y, 6);
      expect(to.scale).toBeGreaterThanOrEqual(camera.LEAST_SCALE);
      expect(to.scale).toBeLessThanOrEqual(camera.MOST_SCALE);
    });
  });

  it("lets the cloth follow the hand", () => {
    each((any) => {
      const start = someCamera(any);
      const from = screenPoint(any(0, 900), any(0, 600));
      const to = screenPoint(any(0, 900), any(0, 600));
      const held = camera.toCloth(start, view, from);
      const seen = camera.toScreen(camera.dragged(start, from, to), view, held);
      expect(seen.x).toBeCloseTo(to.x, 6);
      expect(seen.y).toBeCloseTo(to.y, 6);
    });
  });

  it("keeps what both fingers hold under both fingers", () => {
    each((any) => {
      const start = { ...someCamera(any), scale: any(40, 60) };
      const from = [screenPoint(300, 300), screenPoint(500, 300)] as const;
      const spread = any(60, 400);
      const middle = any(200, 700);
      // The fingers stay level: a pinch never turns the piece.
      const to = [screenPoint(middle - spread, 250), screenPoint(middle + spread, 250)] as const;
      const after = camera.pinched(start, view, from, to);
      for (const finger of [0, 1] as const) {
        const held = camera.toCloth(start, view, from[finger]);
        const seen = camera.toScreen(after, view, held);
        expect(seen.x).toBeCloseTo(to[finger].x, 6);
        expect(seen.y).toBeCloseTo(to[finger].y, 6);
      }
    });
  });

  it("shows the whole of a box with the margin asked for", () => {
    each((any) => {
      const least = clothPoint(any(-20, 0), any(-20, 0));
      const most = clothPoint(least.x + any(1, 40), least.y + any(1, 40));
      const shown = camera.showing({ least, most }, view, 30);
      const corner = camera.toScreen(shown, view, least);
      const other = camera.toScreen(shown, view, most);
      const margin = Math.min(corner.x, corner.y, 900 - other.x, 600 - other.y);
      expect(margin).toBeCloseTo(30, 6);
    });
  });

  it("is itself again when the piece is turned over twice", () => {
    each((any) => {
      const from = someCamera(any);
      expect(camera.turnedOver(camera.turnedOver(from))).toEqual(from);
    });
  });

  it("survives two fingers on one spot", () => {
    const start = { scale: 30, middle: clothPoint(1, 2) };
    const spot = screenPoint(10, 10);
    const after = camera.pinched(start, view, [spot, spot], [spot, spot]);
    expect(after.scale).toBe(30);
  });
});
