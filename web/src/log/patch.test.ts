// Oracles: entries written by hand; no outside source.

import { expect, it } from "vitest";
import type { Entry } from "../api/types";
import { layBefore } from "./patch";

const entry = (mark: number, kind: string): Entry => ({
  step: String(mark),
  mark,
  kind,
  run: null,
  sentence: "",
  sewn: false,
  patches: [],
  photo: null,
});
const log = [entry(1, "lay"), entry(2, "lay"), entry(3, "sew"), entry(4, "cut"), entry(5, "lay")];

it("a place on the log is about the last patch laid by then", () => {
  const marks = [0, 1, 2, 3, 4, 5, 9].map((place) => layBefore(log, place)?.mark ?? null);
  expect(marks).toEqual([null, 1, 2, 2, 2, 5, 5]);
});
