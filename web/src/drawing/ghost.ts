// A proposal as a ghost on the piece: of its drawing only what would be sewn on is kept.

import { sheetFrom, type Sheet } from "./sheet";

/** What a proposal's drawing lays on the piece; null if it lays nothing. */
export function ghostFrom(text: string): Sheet | null {
  const sheet = sheetFrom(text);
  const laid = sheet?.svg.querySelector("g.proposal");
  if (!sheet || !laid) return null;
  // What surrounds it is taken away; what it refers to stays.
  for (let kept: Element = laid; kept !== sheet.svg; kept = kept.parentElement ?? sheet.svg) {
    for (const other of [...(kept.parentElement?.children ?? [])])
      if (other !== kept && other.localName !== "defs") other.remove();
  }
  return sheet;
}
