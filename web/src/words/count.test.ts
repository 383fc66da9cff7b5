import { expect, it } from "vitest";
import { countProblem } from "./count";

it("an empty field, a part of a piece, and too many are told what is wanted", () => {
  for (const typed of [null, undefined, Number.NaN, 0, 301, 2.5, -3])
    expect(countProblem(typed, "pieces", 1, 300)).toBe(
      "Say how many pieces: a whole number from 1 to 300.",
    );
  for (const typed of [1, 6, 300]) expect(countProblem(typed, "pieces", 1, 300)).toBeNull();
});
