// Shows a patch that was just sewn on swinging open about its seam, as it does under the iron.

import type { PartKind } from "./parts";
import { squeezed, swung, type Spot } from "./swing";

const MILLISECONDS = 420;
/** A patch whose middle moved this far, in units of the drawing, was carried; less is a trim. */
const CARRIED = 0.5;

const UNNAMED = ".seams path:not([data-seam]), .edges path:not([data-side])";

/** Swings open, in `now`, what was carried there since `before`, about the one seam that is new. */
export function swingOpen(before: SVGSVGElement, now: SVGSVGElement): void {
  if (matchMedia("(prefers-reduced-motion: reduce)").matches) return;
  const was = {
    patch: places(before, "patch"),
    side: places(before, "side"),
    seam: places(before, "seam"),
  };
  const added = named(now, "seam").filter(([name]) => !was.seam.has(name));
  const [seam] = added;
  if (!seam || added.some(([name]) => name !== seam[0])) return;
  // The new drawing is measured once the browser has laid it out.
  requestAnimationFrame((start) => {
    const ends = endsOf(seam[1]);
    if (!ends) return;
    const carried = moved(now, "patch", was.patch).map(([, patch]) => patch);
    const newest = carried.at(-1);
    if (!newest) return;
    // When a unit is joined both its halves are carried: what came last is what swings.
    const side = sideOf(newest, ends);
    const swinging = carried.filter((patch) => sideOf(patch, ends) === side);
    const edges = [...moved(now, "side", was.side), ...moved(now, "seam", was.seam)]
      .filter(([name]) => name !== seam[0])
      .map(([, edge]) => edge);
    // What lies under the stitches is drawn in one stroke for all of them.
    edges.push(...now.querySelectorAll<SVGGraphicsElement>(UNNAMED));
    swing(swinging, edges, ends, start);
  });
}

/** Swings patches; their edges are not drawn until they lie. */
function swing(
  patches: readonly SVGGraphicsElement[],
  edges: readonly SVGGraphicsElement[],
  [from, to]: [Spot, Spot],
  start: number,
): void {
  const resting = patches.map((patch) => patch.getAttribute("transform") ?? "");
  for (const edge of edges) edge.style.visibility = "hidden";
  const frame = (time: number): void => {
    const progress = Math.max(0, time - start) / MILLISECONDS;
    const share = swung(progress);
    const squeeze = progress < 1 ? `matrix(${squeezed(from, to, share).join(" ")}) ` : "";
    patches.forEach((patch, i) => {
      patch.setAttribute("transform", `${squeeze}${resting[i] ?? ""}`);
      // Until it is past upright its wrong side is up, which is paler.
      patch.style.opacity = share < 0 ? "0.6" : "";
    });
    if (progress < 1) requestAnimationFrame(frame);
    else for (const edge of edges) edge.style.visibility = "";
  };
  frame(start);
}

/** What was not there before, or not in any of the places where that name was drawn. */
function moved(
  svg: SVGSVGElement,
  kind: PartKind,
  before: ReadonlyMap<string, readonly Spot[]>,
): [string, SVGGraphicsElement][] {
  return named(svg, kind).filter(([name, element]) => {
    const [x, y] = middle(element);
    const near = ([a, b]: Spot): boolean => Math.hypot(a - x, b - y) <= CARRIED;
    return !before.get(name)?.some(near);
  });
}

/** Where each name is drawn. A side is drawn once for every patch along it. */
function places(svg: SVGSVGElement, kind: PartKind): Map<string, Spot[]> {
  const found = new Map<string, Spot[]>();
  for (const [name, element] of named(svg, kind)) {
    found.set(name, [...(found.get(name) ?? []), middle(element)]);
  }
  return found;
}

/** On which side of the line through two places an element lies: -1, 0 or 1. */
function sideOf(element: SVGGraphicsElement, [from, to]: [Spot, Spot]): number {
  const [x, y] = middle(element);
  return Math.sign((to[0] - from[0]) * (y - from[1]) - (to[1] - from[1]) * (x - from[0]));
}

/** All that is drawn of every named part, in the order drawn. */
function named(svg: SVGSVGElement, kind: PartKind): [string, SVGGraphicsElement][] {
  return [...svg.querySelectorAll<SVGGraphicsElement>(`[data-${kind}]`)].map((element) => [
    element.getAttribute(`data-${kind}`) ?? "",
    element,
  ]);
}

function middle(element: SVGGraphicsElement): Spot {
  const box = element.getBBox();
  return [box.x + box.width / 2, box.y + box.height / 2];
}

function endsOf(seam: SVGGraphicsElement): [Spot, Spot] | null {
  const line =
    seam instanceof SVGGeometryElement
      ? seam
      : seam.querySelector<SVGGeometryElement>("path, line");
  if (!line || line.getTotalLength() === 0) return null;
  const [from, to] = [line.getPointAtLength(0), line.getPointAtLength(line.getTotalLength())];
  return [
    [from.x, from.y],
    [to.x, to.y],
  ];
}
