// Oracle: logs written by hand here; no outside source.

import { expect, it } from "vitest";
import type { Entry } from "../api/types";
import { lastRun, stageRuns } from "./run";

const entry = (mark: number, first: number | null, kind = "piece"): Entry => ({
  step: `${mark}`,
  mark,
  kind: "sew",
  run: first === null ? null : { first, kind, name: kind },
  sentence: "",
  sewn: false,
  patches: [],
  photo: null,
});
const marks = (entries: Entry[]): number[] => lastRun(entries).map((one) => one.mark);

it("the last run is all that was done together, and a lone entry is a run of its own", () => {
  expect(marks([])).toEqual([]);
  expect(marks([entry(1, 1), entry(2, 2), entry(3, 2), entry(4, 2)])).toEqual([2, 3, 4]);
  expect(marks([entry(1, 1), entry(2, 1), entry(3, null)])).toEqual([3]);
});

it("stages are told from pieces, and each has its own place on the tape", () => {
  const log = [
    entry(1, 1),
    entry(2, 2, "ring"),
    entry(3, 2, "ring"),
    entry(4, 4, "ring"),
    entry(5, null),
    entry(6, 6, "finishing"),
  ];
  expect(stageRuns(log).map(({ name, from, to }) => [name, from, to])).toEqual([
    ["ring", 2, 3],
    ["ring", 4, 4],
    ["finishing", 6, 6],
  ]);
  expect(stageRuns([])).toEqual([]);
});
