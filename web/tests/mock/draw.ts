// Draws the mock piece as the program draws the real one: true units, y flipped, named parts.

import type { MockPatch, MockState } from "./piece";
import { PRINTS, scrap } from "./prints";

type Spot = readonly [number, number];
const STITCHES = `stroke-width=".03" stroke-dasharray=".09 .05"`;
const CHALK = `stroke-width=".05" stroke-dasharray=".06 .1" stroke-linecap="round"`;

function drawing(corners: readonly Spot[], inside: string): string {
  const [xs, ys] = [corners.map(([x]) => x), corners.map(([, y]) => -y)];
  const [x, y] = [Math.min(...xs) - 0.1, Math.min(...ys) - 0.1];
  const [wide, high] = [Math.max(...xs) - x + 0.1, Math.max(...ys) - y + 0.1];
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${wide}in" height="${high}in" viewBox="${x} ${y} ${wide} ${high}"><defs>${patterns()}</defs>${inside}</svg>`;
}

function patterns(): string {
  return PRINTS.map(
    (_, i) =>
      `<pattern id="p${i}" patternUnits="userSpaceOnUse" width="2" height="2" patternTransform="rotate(${i * 23})"><image href="/pictures/${i}" width="2" height="2"/></pattern>`,
  ).join("");
}

const path = (corners: readonly Spot[]): string =>
  `M${corners.map(([x, y]) => `${x.toFixed(4)} ${(-y).toFixed(4)}`).join("L")}`;

/** The piece, seen from the front or from the back; the last patches may still be chalk. */
export function pieceDrawing(
  state: MockState,
  look: { back: boolean; labels: boolean; sewn: number },
): string {
  const turn = (spots: readonly Spot[]): Spot[] => spots.map(([x, y]) => [look.back ? -x : x, y]);
  const patch = (one: MockPatch, i: number): string =>
    `<g data-patch="${one.name}"><path d="${path(turn(one.corners))}Z" fill="${look.back ? (PRINTS[one.print]?.[1] ?? "") : `url(#p${one.print})`}" opacity="${look.back ? 0.6 : 1}"/>${i >= look.sewn ? `<path d="${path(turn(one.corners))}Z" fill="none" stroke="#fff" ${CHALK}/>` : ""}</g>`;
  const seam = (one: MockPatch, i: number): string =>
    one.seam
      ? `<path data-seam="${one.name}" d="${path(turn(one.seam))}" fill="none" stroke="${i < look.sewn ? "#2b221c" : "#fff"}" ${i < look.sewn ? STITCHES : CHALK}/>`
      : "";
  const corners = turn(state.corners);
  const side = (name: string, i: number): string => {
    const ends = [corners.at(i - 1) ?? [0, 0], corners[i] ?? [0, 0]] as const;
    return `<path data-side="${name}" d="${path(ends)}" fill="none" stroke="#2b221c" stroke-width=".02"/>`;
  };
  const label = (one: MockPatch): string => {
    const at = turn([middle(one.corners)])[0] ?? [0, 0];
    return `<text x="${at[0]}" y="${-at[1]}" font-size=".3" text-anchor="middle">${one.name}</text>`;
  };
  return drawing(
    corners,
    [
      ...state.patches.map(patch),
      ...state.patches.map(seam),
      ...state.sides.map(side),
      ...(look.labels ? state.patches.map(label) : []),
    ].join(""),
  );
}

/** The piece with a patch of a later state laid on it. */
export function offerDrawing(state: MockState, next: MockState): string {
  const one = next.patches.at(-1);
  const laid = one
    ? `<path d="${path(one.corners)}Z" fill="url(#p${one.print})" stroke="#a3302a" stroke-width=".05"/>`
    : "";
  const patches = state.patches.map(
    (patch) => `<path d="${path(patch.corners)}Z" fill="${PRINTS[patch.print]?.[1] ?? ""}"/>`,
  );
  return drawing(
    next.corners,
    `<g class="patches">${patches.join("")}</g><g class="proposal">${laid}</g>`,
  );
}

/** A cloth of the heap. */
export function clothDrawing(no: number): string {
  const corners = scrap(no);
  return drawing(
    corners,
    `<path d="${path(corners)}Z" fill="url(#p${no % PRINTS.length})"/><script>document.title = "run"</script>`,
  );
}

function middle(corners: readonly Spot[]): Spot {
  const sum = corners.reduce(([x, y], [a, b]) => [x + a, y + b], [0, 0] as Spot);
  return [sum[0] / corners.length, sum[1] / corners.length];
}
