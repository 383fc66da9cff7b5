// What the program answers and takes, as the page needs it. Lengths are inches, areas square
// inches; every size says in its name or its words which one it is.

/** A named tip of a quilt's log: what is on the table, or a what-if beside it. */
export interface Head {
  readonly name: string;
  readonly tip: string | null;
  readonly sewn: string | null;
  readonly steps: number;
  readonly version: number;
}

/** A quilt and its heads. */
export interface Quilt {
  readonly name: string;
  readonly heads: readonly Head[];
}

/** The workroom: every quilt in it. */
export interface Workroom {
  readonly name: string;
  readonly quilts: readonly Quilt[];
}

/** A cloth in the stash. */
export interface Cloth {
  readonly id: string;
  readonly no: number;
  readonly name: string;
  readonly kind: string;
  /** Its measures are a guess ("about 3 by 5"). */
  readonly about: boolean;
  readonly place: string | null;
  readonly area_in2: number;
  readonly width_in: number;
  readonly height_in: number;
  /** Share of the cloth that is still there, 0 to 1. */
  readonly remaining: number;
  /** Share of the cloth that plans lay claim to, 0 to 1. */
  readonly claimed: number;
  readonly print: string | null;
  /** Which ways its print may be turned. */
  readonly runs: string;
  readonly colours: readonly { readonly hex: string; readonly share: number }[];
  readonly picture_url: string | null;
  readonly svg_url: string;
}

/** The stash, as one quilt sees it. */
export interface Stash {
  readonly cloths: readonly Cloth[];
}

/** An entry of the sewing log. */
export interface Entry {
  readonly step: string;
  readonly mark: number;
  readonly kind: string;
  readonly run: { readonly first: number; readonly kind: string } | null;
  readonly sentence: string;
  readonly sewn: boolean;
  /** Names of the patches that it brought to the table. */
  readonly patches: readonly string[];
}

/** The log of one head, from the first step to its tip. */
export interface Log {
  readonly tip: string | null;
  readonly sewn: string | null;
  readonly version: number;
  readonly entries: readonly Entry[];
}

/** A side of a top. */
export interface Side {
  readonly name: string;
  /** The raw length. */
  readonly length_in: number;
  readonly sewable: boolean;
}

/** A patch of a top. */
export interface Patch {
  readonly name: string;
  readonly cloth: string;
  readonly cloth_name: string;
  /** The box of what was cut, width and height. */
  readonly cut_in: readonly number[];
  readonly finished_area_in2: number;
  /** The seam that holds it. */
  readonly held_by: string | null;
}

/** A seam of a top. */
export interface Seam {
  readonly name: string;
  readonly length_in: number;
  readonly press: string;
  readonly order: number;
}

/** A top on the table. */
export interface Top {
  readonly mark: number;
  readonly sides: readonly Side[];
  readonly patches: readonly Patch[];
  readonly seams: readonly Seam[];
  readonly width_in: number;
  readonly height_in: number;
  readonly thickest: {
    readonly layers: number;
    readonly x_in: number;
    readonly y_in: number;
  } | null;
}

/** What lies on the table after a step. */
export interface Table {
  readonly tops: readonly Top[];
}

/** How good a row of the eye check is. */
export type Grade = "good" | "fair" | "poor";

/** A place on the piece that a row speaks of; points in inches, y upwards as on the table. */
export interface EyeMark {
  readonly kind: "point" | "line" | "area";
  readonly points: readonly (readonly number[])[];
}

/** A row of the eye check. */
export interface EyeRow {
  readonly key: string;
  readonly quality: string;
  readonly number: number | string | null;
  readonly words: string;
  readonly grade: Grade;
  readonly marks: readonly EyeMark[];
}

/** The eye check of a step. */
export interface Eye {
  readonly rows: readonly EyeRow[];
  readonly gates_passed: boolean;
  readonly total_cost: number;
}

/** One term of a proposal's score. */
export interface Term {
  readonly name: string;
  readonly words: string;
  readonly value: number;
}

/** A next piece that the program proposes. */
export interface Proposal {
  readonly no: number;
  readonly cloth: string;
  readonly cloth_name: string;
  readonly side: string;
  readonly cut_words: string;
  readonly lay_words: string;
  readonly score: number;
  readonly terms: readonly Term[];
  readonly preview_svg_url: string;
}

/** Why something can't be sewn, and what would help. */
export interface Problem {
  readonly rule: string;
  readonly message: string;
  readonly place: string | null;
  readonly remedies: readonly string[];
}

/** What the page asks for. It is never a step: the program decides the steps. */
export type Ask =
  | { readonly kind: "next"; readonly side?: string; readonly count?: number }
  | {
      readonly kind: "take";
      readonly proposal: number;
      readonly side?: string;
      readonly count?: number;
    }
  | { readonly kind: "sewn"; readonly upto?: number }
  | { readonly kind: "unpick" }
  | { readonly kind: "grow"; readonly pieces: number; readonly seed: number }
  | {
      readonly kind: "what_ifs";
      readonly count: number;
      readonly pieces: number;
      readonly seed: number;
    };

/** What came of an ask. */
export interface Answer {
  readonly tip: string | null;
  readonly version: number;
  readonly proposals?: readonly Proposal[] | null;
  readonly problems?: readonly Problem[] | null;
}
