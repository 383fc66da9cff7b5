// Shows a patch that was just sewn on swinging open about its seam, as it does under the iron.

import { squeezed, swung, type Spot } from "./swing";

const MILLISECONDS = 420;
/** A patch whose middle moved this far, in units of the drawing, was carried; less is a trim. */
const CARRIED = 0.5;

/** Swings open, in `now`, what was not there in `before`, about the one seam that is new. */
export function swingOpen(before: SVGSVGElement, now: SVGSVGElement): void {
  if (matchMedia("(prefers-reduced-motion: reduce)").matches) return;
  const old = new Map([...named(before, "patch")].map(([name, one]) => [name, middle(one)]));
  const seams = named(before, "seam");
  const added = [...named(now, "seam")].filter(([name]) => !seams.has(name));
  const [seam] = added;
  if (added.length !== 1 || !seam) return;
  // The new drawing is measured once the browser has laid it out.
  requestAnimationFrame((start) => {
    const ends = endsOf(seam[1]);
    if (!ends) return;
    const carried = [...named(now, "patch")].filter(([name, element]) => {
      const was = old.get(name);
      const is = middle(element);
      return !was || !is || Math.hypot(was[0] - is[0], was[1] - is[1]) > CARRIED;
    });
    if (carried.length > 0 && carried.length < 12)
      swing(
        carried.map(([, one]) => one),
        ends,
        start,
      );
  });
}

function swing(
  patches: readonly SVGGraphicsElement[],
  [from, to]: [Spot, Spot],
  start: number,
): void {
  const resting = patches.map((patch) => patch.getAttribute("transform"));
  const frame = (time: number): void => {
    const progress = (time - start) / MILLISECONDS;
    const squeeze = `matrix(${squeezed(from, to, swung(progress)).join(" ")})`;
    patches.forEach((patch, i) => {
      const rest = resting[i] ?? null;
      if (progress < 1) patch.setAttribute("transform", rest ? `${squeeze} ${rest}` : squeeze);
      else if (rest === null) patch.removeAttribute("transform");
      else patch.setAttribute("transform", rest);
    });
    if (progress < 1) requestAnimationFrame(frame);
  };
  frame(start);
}

/** The first element of every name. */
function named(svg: SVGSVGElement, kind: "patch" | "seam"): Map<string, SVGGraphicsElement> {
  const found = new Map<string, SVGGraphicsElement>();
  for (const element of svg.querySelectorAll<SVGGraphicsElement>(`[data-${kind}]`)) {
    const name = element.getAttribute(`data-${kind}`) ?? "";
    if (!found.has(name)) found.set(name, element);
  }
  return found;
}

function middle(element: SVGGraphicsElement): Spot | null {
  if (!element.isConnected) return null;
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
