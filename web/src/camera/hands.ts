// The fingers on the piece (a mouse is one finger) and what their moving does to the camera.
//
// One finger drags, two pinch, more are ignored. A finger that has moved less than 4 pixels is
// still a touch and not a drag: it may become a click.

import { dragged, pinched, type Camera } from "./camera";
import type { ScreenPoint, Window } from "./points";

/** How far a finger moves before it drags, in pixels. */
export const SLACK = 4;

/** A finger: where it came down, where it is. */
export interface Finger {
  readonly id: number;
  readonly down: ScreenPoint;
  readonly at: ScreenPoint;
}

/** The fingers that are down, in the order they came, and whether any has dragged. */
export interface Hands {
  readonly fingers: readonly Finger[];
  readonly dragging: boolean;
}

/** No finger is down. */
export const NO_HANDS: Hands = { fingers: [], dragging: false };

/** A finger came down. A second one always drags. */
export function pressed(hands: Hands, id: number, at: ScreenPoint): Hands {
  const others = hands.fingers.filter((finger) => finger.id !== id);
  return {
    fingers: [...others, { id, down: at, at }],
    dragging: hands.dragging || others.length > 0,
  };
}

/** A finger went up. The drag is over when the last one has. */
export function lifted(hands: Hands, id: number): Hands {
  const fingers = hands.fingers.filter((finger) => finger.id !== id);
  return { fingers, dragging: hands.dragging && fingers.length > 0 };
}

/** A finger moved: the hands after it, and the camera. */
export function moved(
  hands: Hands,
  id: number,
  to: ScreenPoint,
  camera: Camera,
  view: Window,
): { hands: Hands; camera: Camera } {
  const finger = hands.fingers.find((one) => one.id === id);
  if (!finger) return { hands, camera };
  const far = Math.hypot(to.x - finger.down.x, to.y - finger.down.y) >= SLACK;
  const dragging = hands.dragging || far;
  if (!dragging) return { hands, camera };
  const fingers = hands.fingers.map((one) => (one.id === id ? { ...one, at: to } : one));
  return { hands: { fingers, dragging }, camera: after(hands.fingers, fingers, camera, view) };
}

function after(
  before: readonly Finger[],
  now: readonly Finger[],
  camera: Camera,
  view: Window,
): Camera {
  const [a, b] = before;
  const [c, d] = now;
  if (a && b && c && d) return pinched(camera, view, [a.at, b.at], [c.at, d.at]);
  return a && c ? dragged(camera, a.at, c.at) : camera;
}
