import { expect, it } from "vitest";
import { larger } from "./letters";

it("letters are set larger until they can be read, and never smaller", () => {
  expect(larger(0.3, 100)).toBe(1);
  expect(larger(0.325, 20)).toBeCloseTo(2);
  for (const scale of [2, 7, 24, 40, 400])
    expect(0.3 * scale * larger(0.3, scale)).toBeGreaterThanOrEqual(13 - 1e-9);
  expect(larger(0, 10)).toBe(1);
});
