// The last run of the log: what unpicking takes back at once.

import type { Entry } from "../api/types";

/** Where an entry's run begins: itself when it belongs to none. */
const begins = (entry: Entry): number => entry.run?.first ?? entry.mark;

/** The entries of the last run, in order; none of an empty log. */
export function lastRun(entries: readonly Entry[]): readonly Entry[] {
  const last = entries.at(-1);
  if (!last) return [];
  return entries.slice(entries.findIndex((entry) => begins(entry) === begins(last)));
}
