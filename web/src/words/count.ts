// A count as one types it into a field.

/** What a field for a count holds: a number, or nothing at all. */
export type Typed = number | null | undefined;

/** Why what was typed is no count from `least` to `most`; null when it is one. */
export function countProblem(
  typed: Typed,
  what: string,
  least: number,
  most: number,
): string | null {
  const sound = typeof typed === "number" && Number.isInteger(typed);
  return sound && typed >= least && typed <= most
    ? null
    : `Say how many ${what}: a whole number from ${least} to ${most}.`;
}
