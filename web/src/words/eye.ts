// What a row of the eye check looks at, where its sentence alone would be misread.

const MEANT: Readonly<Record<string, string>> = {
  HotSpots:
    "A piece stands out by how far its colour is from that of the pieces near it, and the more the larger it is; marked are those that do so two and a half times as much as the middling piece. A large dark piece between paler ones counts as well as a pale one between dark ones.",
};

/** What that row looks at, or nothing where its own sentence says it. */
export const meant = (key: string): string => MEANT[key] ?? "";
