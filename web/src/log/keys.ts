// What the keys do. Arrows move along the log, with Shift they move the piece.

/** What a key asks for. */
export type Deed =
  | "back"
  | "on"
  | "first"
  | "last"
  | "run"
  | "nearer"
  | "farther"
  | "whole"
  | "turn"
  | "left"
  | "right"
  | "up"
  | "down"
  | "away";

const PLAIN: Readonly<Record<string, Deed>> = {
  ArrowLeft: "back",
  ArrowRight: "on",
  Home: "first",
  End: "last",
  " ": "run",
  "+": "nearer",
  "=": "nearer",
  "-": "farther",
  "0": "whole",
  t: "turn",
  Escape: "away",
};

const SHIFTED: Readonly<Record<string, Deed>> = {
  ArrowLeft: "left",
  ArrowRight: "right",
  ArrowUp: "up",
  ArrowDown: "down",
  "+": "nearer",
};

/** The part of a key press that counts. */
export interface Key {
  readonly key: string;
  readonly shiftKey: boolean;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
  readonly target: EventTarget | null;
}

/** What a key press asks for, or null: with another modifier it is the browser's, in a field it is writing. */
export function keyDeed(press: Key): Deed | null {
  if (press.ctrlKey || press.metaKey || press.altKey) return null;
  const deed = (press.shiftKey ? SHIFTED : PLAIN)[press.key] ?? null;
  const name = (press.target as { localName?: string } | null)?.localName ?? "";
  if (deed !== "away" && ["input", "select", "textarea"].includes(name)) return null;
  return deed === "run" && ["button", "summary"].includes(name) ? null : deed;
}
