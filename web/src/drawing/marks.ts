// Where a mark of the eye check is seen on a drawing.
//
// The program counts inches with y upwards, seen from the front. A drawing's y grows downwards, and
// the back is seen turned about the upright axis.

import type { Face } from "../api/client";
import type { EyeMark } from "../api/types";

/** The points of a mark as the drawing of that face shows them, in inches. */
export function placed(mark: EyeMark, face: Face): [number, number][] {
  const across = face === "back" ? -1 : 1;
  return mark.points.map(([x = 0, y = 0]) => [across * x, -y]);
}
