// Which patch a place on the log is about.

import type { Entry } from "../api/types";

/** The last entry that laid a patch among the first `place` entries, or null. */
export function layBefore(entries: readonly Entry[], place: number): Entry | null {
  for (let i = Math.min(place, entries.length) - 1; i >= 0; i -= 1) {
    const entry = entries[i];
    if (entry?.kind === "lay") return entry;
  }
  return null;
}
