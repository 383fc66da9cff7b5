// Oracles: what was typed by hand here; no outside source.

import { expect, it } from "vitest";
import type { Measure } from "../api/types";
import { changed, limitsOf, written } from "./measures";

const measure = (unit: Measure["unit"], value: number): Measure => ({
  name: unit,
  label: unit,
  words: "",
  unit,
  least: 0,
  most: 24,
  value,
});

it("inches are written as fractions where they are some, and as decimals where they aren't", () => {
  const inches = measure("inches", 0);
  expect(written(inches, 20)).toBe("20");
  expect(written(inches, 0.125)).toBe("1/8");
  expect(written(inches, 3 + 5 / 64)).toBe("3 5/64");
  expect(written(inches, 1.3)).toBe("1.3");
  expect(written(measure("percent", 0), 0.06 * 100)).toBe("6");
});

it("limits carry their unit", () => {
  expect(limitsOf(measure("inches", 1))).toBe("0 to 24 inches");
  expect(limitsOf(measure("degrees", 1))).toBe("0° to 24°");
  expect(limitsOf(measure("weight", 1))).toBe("0 to 24");
});

it("only what was changed is asked for", () => {
  const all = [measure("inches", 1.3), measure("percent", 6), measure("degrees", 20)];
  expect(changed(all, { inches: "1.3", percent: " 6 ", degrees: "25" })).toEqual({ degrees: "25" });
  expect(changed(all, {})).toEqual({});
});
