// Measures of the wish as one writes and reads them. What is right is for the program to say.

import type { Measure } from "../api/types";
import { inches } from "./inches";

/** A number as it stands in a field: a fraction where it is one, a decimal where it isn't. */
export function written(measure: Pick<Measure, "unit">, value: number): string {
  if (measure.unit === "inches") {
    const parts = [8, 16, 64].find((one) => Math.abs(value * one - Math.round(value * one)) < 1e-6);
    if (parts !== undefined) return inches(value, parts);
  }
  return String(Number(value.toFixed(3)));
}

const UNITS: Readonly<Record<Measure["unit"], string>> = {
  inches: "inches",
  percent: "%",
  degrees: "°",
  difference: "ΔE",
  weight: "",
};

/** The word that stands after the field. */
export const unitOf = (measure: Pick<Measure, "unit">): string => UNITS[measure.unit];

/** Between what it has to lie: `2 to 240 inches`. */
export function limitsOf(measure: Pick<Measure, "unit" | "least" | "most">): string {
  const [least, most] = [written(measure, measure.least), written(measure, measure.most)];
  const unit = unitOf(measure);
  return unit === "°" || unit === ""
    ? `${least}${unit} to ${most}${unit}`
    : `${least} to ${most} ${unit}`;
}

/** The measures whose text has been changed, by name. */
export function changed(
  measures: readonly Measure[],
  typed: Readonly<Record<string, string>>,
): Record<string, string> {
  const now = measures.flatMap((measure) => {
    const text = typed[measure.name]?.trim();
    return text === undefined || text === written(measure, measure.value)
      ? []
      : [[measure.name, text] as const];
  });
  return Object.fromEntries(now);
}
