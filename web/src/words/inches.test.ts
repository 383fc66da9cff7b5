import { expect, it } from "vitest";
import { byInches, inches } from "./inches";

// common practice, no source
it("lengths are written as makers write them", () => {
  expect(inches(2.25)).toBe("2 1/4");
  expect(inches(0.375)).toBe("3/8");
  expect(inches(12)).toBe("12");
  expect(inches(0)).toBe("0");
  expect(inches(-1.5)).toBe("-1 1/2");
  expect(inches(5.8203)).toBe("5 7/8");
  expect(inches(5.8203, 16)).toBe("5 13/16");
  expect(byInches(3, 4.5)).toBe("3 × 4 1/2");
});

it("what rounds up to a whole inch carries over, and nothing is never minus", () => {
  expect(inches(2.99)).toBe("3");
  expect(inches(-0.01)).toBe("0");
  expect(inches(Number.NaN)).toBe("?");
});

it("the written length is within half a part of the number", () => {
  for (let n = 0; n < 2000; n += 1) {
    const value = n * 0.0137;
    const parts = 16;
    const [first, second] = inches(value, parts).split(" ");
    const read = (text: string | undefined): number => {
      const [over, under] = (text ?? "0").split("/");
      return Number(over) / Number(under ?? 1);
    };
    expect(Math.abs(read(first) + read(second) - value)).toBeLessThanOrEqual(0.5 / parts + 1e-12);
  }
});
