// The camera over the piece: how many pixels an inch is, and which place lies mid-window.
//
// It knows no browser and no document: every function takes a camera and gives another. An inch is
// never fewer than 2 pixels nor more than 800, so that nothing can be zoomed out of sight.

import {
  clothPoint,
  screenPoint,
  type Clear,
  type ClothBox,
  type ClothPoint,
  type ScreenPoint,
  type Window,
} from "./points";

/** Where one looks from. */
export interface Camera {
  /** Pixels an inch. */
  readonly scale: number;
  /** The place that lies in the middle of the window. */
  readonly middle: ClothPoint;
}

/** The fewest pixels an inch. */
export const LEAST_SCALE = 2;
/** The most pixels an inch. */
export const MOST_SCALE = 800;

const within = (value: number, least: number, most: number): number =>
  Math.min(most, Math.max(least, value));

/** Where a place on the drawing is seen. */
export function toScreen(camera: Camera, view: Window, at: ClothPoint): ScreenPoint {
  return screenPoint(
    view.width / 2 + (at.x - camera.middle.x) * camera.scale,
    view.height / 2 + (at.y - camera.middle.y) * camera.scale,
  );
}

/** Which place on the drawing is seen there. The inverse of {@link toScreen}. */
export function toCloth(camera: Camera, view: Window, at: ScreenPoint): ClothPoint {
  return clothPoint(
    camera.middle.x + (at.x - view.width / 2) / camera.scale,
    camera.middle.y + (at.y - view.height / 2) / camera.scale,
  );
}

/** The camera that shows the whole box in the clear part of the window, with `margin` pixels round it. */
export function showing(box: ClothBox, view: Window, margin: number, clear?: Clear): Camera {
  const free = clear ?? { left: 0, top: 0, ...view };
  const wide = Math.max(box.most.x - box.least.x, 0.25);
  const high = Math.max(box.most.y - box.least.y, 0.25);
  const fits = Math.min(
    Math.max(free.width - 2 * margin, 1) / wide,
    Math.max(free.height - 2 * margin, 1) / high,
  );
  const scale = within(fits, LEAST_SCALE, MOST_SCALE);
  const off = middleOf(free);
  return {
    scale,
    middle: clothPoint(
      (box.least.x + box.most.x) / 2 + (view.width / 2 - off.x) / scale,
      (box.least.y + box.most.y) / 2 + (view.height / 2 - off.y) / scale,
    ),
  };
}

/** The middle of the clear part of a window. */
export const middleOf = (clear: Clear): ScreenPoint =>
  screenPoint(clear.left + clear.width / 2, clear.top + clear.height / 2);

/** Nearer or farther by `factor`, while the place under `about` stays where it is seen. */
export function zoomed(camera: Camera, view: Window, about: ScreenPoint, factor: number): Camera {
  const scale = within(camera.scale * factor, LEAST_SCALE, MOST_SCALE);
  const under = toCloth(camera, view, about);
  return {
    scale,
    middle: clothPoint(
      under.x - (about.x - view.width / 2) / scale,
      under.y - (about.y - view.height / 2) / scale,
    ),
  };
}

/** Shifted so that the drawing follows a hand that moved from one place on the screen to another. */
export function dragged(camera: Camera, from: ScreenPoint, to: ScreenPoint): Camera {
  return {
    scale: camera.scale,
    middle: clothPoint(
      camera.middle.x - (to.x - from.x) / camera.scale,
      camera.middle.y - (to.y - from.y) / camera.scale,
    ),
  };
}

/** Two fingers moved: what lay midway between them still does, and the spread sets the scale. */
export function pinched(
  camera: Camera,
  view: Window,
  from: readonly [ScreenPoint, ScreenPoint],
  to: readonly [ScreenPoint, ScreenPoint],
): Camera {
  const before = Math.hypot(from[0].x - from[1].x, from[0].y - from[1].y);
  const after = Math.hypot(to[0].x - to[1].x, to[0].y - to[1].y);
  const factor = before > 1 && after > 1 ? after / before : 1;
  return zoomed(dragged(camera, midway(from), midway(to)), view, midway(to), factor);
}

/** The same view of the other side: turned over about an upright axis, as one turns a piece. */
export function turnedOver(camera: Camera): Camera {
  return { scale: camera.scale, middle: clothPoint(-camera.middle.x, camera.middle.y) };
}

function midway(pair: readonly [ScreenPoint, ScreenPoint]): ScreenPoint {
  return screenPoint((pair[0].x + pair[1].x) / 2, (pair[0].y + pair[1].y) / 2);
}
