// What hangs on each mark of the tape: the cloth that the step brought, or the tool it was done with.

import type { Cloth, Entry, Table } from "../api/types";

/** What a mark of the tape shows. */
export interface Snip {
  /** The cloths it brought, each with a colour to show where there is no picture. */
  readonly cloths: readonly { readonly colour: string; readonly picture: string | null }[];
  /** The drawing of the tool. */
  readonly tool:
    | "needle"
    | "scissors"
    | "tape"
    | "pencil"
    | "lay"
    | "layers"
    | "spiral"
    | "edge"
    | "leaf"
    | "rod";
}

const TOOLS: Readonly<Record<string, Snip["tool"]>> = {
  lay: "lay",
  sew: "needle",
  cut: "scissors",
  measure: "tape",
  choose: "layers",
  note: "pencil",
};

/** The drawing for what was chosen of a later stage. */
const CHOSEN: Readonly<Record<string, Snip["tool"]>> = {
  Layers: "layers",
  Quilting: "spiral",
  Binding: "edge",
  Figure: "leaf",
  "Sleeve and label": "rod",
};

/** Colour of a cloth of which nothing is known: calico. */
const UNKNOWN = "#d9ccb2";

/** A snip for every entry. Patches that are no longer on the table hang no cloth. */
export function snips(
  entries: readonly Entry[],
  table: Table | null,
  heap: readonly Cloth[],
): Snip[] {
  const cloths = new Map(heap.map((cloth) => [cloth.id, cloth]));
  const of = new Map(
    table?.tops.flatMap((top) => top.patches.map((p) => [p.name, p.cloth] as const)),
  );
  return entries.map((entry) => ({
    tool:
      (entry.kind === "choose" && CHOSEN[entry.run?.name ?? ""]) || TOOLS[entry.kind] || "pencil",
    cloths: entry.patches.flatMap((name) => {
      const cloth = cloths.get(of.get(name) ?? "");
      return cloth
        ? [{ colour: cloth.colours[0]?.hex ?? UNKNOWN, picture: cloth.picture_url }]
        : [];
    }),
  }));
}
