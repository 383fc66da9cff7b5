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

/** Kinds of runs that are stages of the piece, and not the adding of pieces. */
const STAGES: readonly string[] = [
  "strip_set",
  "true_up",
  "ring",
  "border",
  "square_up",
  "centres",
  "finishing",
];

/** What the stage is called that an entry belongs to, or null. */
export const stageName = (entry: Entry): string | null =>
  entry.run && STAGES.includes(entry.run.kind) ? entry.run.name : null;

/** A stage on the tape: from its first mark to its last. */
export interface StageRun {
  readonly name: string;
  readonly from: number;
  readonly to: number;
}

/** The stages of a log in order. Places are counted as on the tape: 1 is the first entry. */
export function stageRuns(entries: readonly Entry[]): readonly StageRun[] {
  const runs: (StageRun & { first: number })[] = [];
  entries.forEach((entry, i) => {
    const name = stageName(entry);
    if (name === null) return;
    const last = runs.at(-1);
    const first = begins(entry);
    if (last?.first === first && last.to === i) runs[runs.length - 1] = { ...last, to: i + 1 };
    else runs.push({ name, from: i + 1, to: i + 1, first });
  });
  return runs;
}
