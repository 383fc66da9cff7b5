import { expect, it } from "vitest";
import { runs } from "./fractions";

const fractions = (sentence: string): string[] =>
  runs(sentence).flatMap((run) => (run.kind === "fraction" ? [run.text] : []));

it("fractions in a sentence are found, with the inches before them", () => {
  expect(fractions("2 1/4 along this edge, 1 3/8 up that one")).toEqual(["2 1/4", "1 3/8"]);
  expect(fractions("short by 5/8, about 2-1/2 wide.")).toEqual(["5/8", "2-1/2"]);
  expect(runs("9 1/2")[0]).toMatchObject({ whole: "9", over: "1", under: "2" });
});

it("what only looks like a fraction is left alone", () => {
  expect(fractions("on 2026/11/25 and at a/b, 1/0, 1.5/2, 3/4.5")).toEqual([]);
});

it("the runs put together are the sentence", () => {
  for (const sentence of ["", "1/4", "a 1/4", "1/4 b", "cut 3 x 4 1/2, raw 1/8", "1/0 or 2/3"]) {
    expect(
      runs(sentence)
        .map((run) => run.text)
        .join(""),
    ).toBe(sentence);
  }
});
