// Letters that can be read however far off the piece is. A drawing is in true units, so its names and
// lengths shrink with it; here they are set larger about their own place, never smaller.

/** The least height of letters on the screen, in pixels. */
const READABLE_PX = 13;
/** A number on a patch is not set larger than this many times: it would hide the patch. */
const MOST_ON_PATCH = 3;

/** How many times larger letters of a size have to be set to be read at so many pixels a unit. */
export const larger = (size: number, pxPerUnit: number, least = READABLE_PX): number =>
  size > 0 && pxPerUnit > 0 ? Math.max(1, least / (size * pxPerUnit)) : 1;

/** Sets the words of a drawing for so many pixels a unit of its own coordinates. */
export function setLetters(svg: SVGSVGElement, pxPerUnit: number): void {
  const leaders = [...svg.querySelectorAll("g.side")].flatMap((side) => leaderStart(side) ?? []);
  const lowest = Math.max(...leaders.filter((_, i) => i % 2 === 1));
  for (const text of svg.querySelectorAll("text")) {
    const size = Number(text.getAttribute("font-size"));
    const side = text.closest("g.side");
    const edge = text.closest("g.edge-name");
    if (edge) {
      // The name of a cloth's edge stands beside it: it grows away from the cloth.
      const { x, y, width, height } = svg.viewBox.baseVal;
      const [tx, ty] = at(text);
      const times = larger(size, pxPerUnit);
      const [ox, oy] = [tx - x - width / 2, ty - y - height / 2];
      const off = (1.6 * size * (times - 1)) / (times * (Math.hypot(ox, oy) || 1));
      grown(text, [tx - ox * off, ty - oy * off], times);
    } else if (!side) {
      const onPatch = text.hasAttribute("data-patch");
      const times = larger(size, pxPerUnit, onPatch || text.closest("g.ruler") ? 11 : READABLE_PX);
      const [x, y] = at(text);
      // The size of the whole stays under the labels of the sides, which grow too.
      if (text.matches(".size") && leaders.length > 0) grown(text, [x, Math.min(lowest, y)], times);
      else grown(text, [x, y], onPatch ? Math.min(times, MOST_ON_PATCH) : times);
    } else if (side.querySelector("text") === text) {
      // The lines beside a side grow together, away from the piece: from where the leader begins.
      grown(side, leaderStart(side) ?? at(text), larger(size, pxPerUnit));
    }
  }
}

type Spot = readonly [number, number];

function at(text: Element): Spot {
  return [Number(text.getAttribute("x")), Number(text.getAttribute("y"))];
}

function leaderStart(side: Element): Spot | null {
  const found = /^M\s*(-?[\d.]+)[\s,]+(-?[\d.]+)/.exec(
    side.querySelector("path")?.getAttribute("d") ?? "",
  );
  return found ? [Number(found[1]), Number(found[2])] : null;
}

function grown(element: Element, [x, y]: Spot, times: number): void {
  if (times === 1) element.removeAttribute("transform");
  else
    element.setAttribute(
      "transform",
      `translate(${x} ${y}) scale(${times}) translate(${-x} ${-y})`,
    );
}
