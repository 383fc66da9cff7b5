import { expect, it } from "vitest";
import type { Cloth } from "../api/types";
import { found } from "./find";
import { rulerStep, scaleFor, SCALES } from "./scale";

const cloth = (no: number, name: string, place: string | null): Cloth => ({
  id: `${no}`,
  no,
  name,
  kind: "scrap",
  about: false,
  place,
  area_in2: 12,
  width_in: 4,
  height_in: 3,
  remaining: 1,
  claimed: 0,
  print: null,
  runs: "any",
  colours: [],
  picture_url: null,
  svg_url: "",
});

const heap = [
  cloth(1, "rust stripe", "tin"),
  cloth(2, "slate dots", null),
  cloth(12, "Écru leaf", "tin"),
];
const names = (typed: string): string[] => found(heap, typed).map((one) => one.name);

it("every typed word narrows the heap, in any order and case", () => {
  expect(names("")).toHaveLength(3);
  expect(names("  TIN stripe ")).toEqual(["rust stripe"]);
  expect(names("ecru")).toEqual(["Écru leaf"]);
  expect(names("#12")).toEqual(["Écru leaf"]);
  expect(names("stripe dots")).toEqual([]);
});

it("a single letter is the cloth's own, not part of another word", () => {
  const sails = ["sails a", "sails c", "slate dots"].map((name, i) => cloth(i + 1, name, "case"));
  expect(found(sails, "sails c").map((one) => one.name)).toEqual(["sails c"]);
  expect(found([...sails, cloth(12, "rust", null)], "#1").map((one) => one.no)).toEqual([1]);
});

it("a cloth is drawn no larger than its room, and a small one larger than a big one", () => {
  let before = Number.POSITIVE_INFINITY;
  for (const size of [0.5, 2, 6, 10, 20, 45, 110, 400]) {
    const scale = scaleFor(size, size / 2, 120);
    expect(size * scale).toBeLessThanOrEqual(Math.max(120, size * 1));
    expect(scale).toBeLessThanOrEqual(before);
    before = scale;
  }
  expect(scaleFor(400, 20, 120) * 400).toBeCloseTo(120, 9);
});

it("ruler marks never lie closer than can be read", () => {
  for (const scale of SCALES) expect(rulerStep(scale) * scale).toBeGreaterThanOrEqual(6);
});
