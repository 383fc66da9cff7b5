// The stages after the centre as the page offers them: a few plain fields each, and what is asked of
// the program with them. What is left empty keeps the program's own default; lengths go over as they
// were written, for the program to read.

import type { Cloth } from "../api/types";

/** The stages, by their names in a plan. */
export type StageKind =
  "ring" | "border" | "square_up" | "layers" | "figure" | "quilting" | "binding" | "sleeve";

/** One choice of a field, with what it is called. */
export type Option = readonly [value: string, word: string];

interface Common {
  readonly name: string;
  readonly label: string;
  /** Only shown when another field has one of these values. */
  readonly when?: readonly [field: string, values: readonly string[]];
}

/** Something one fills in. Every value is a text; a yes is "yes", a no is empty. */
export type Field = Common &
  (
    | {
        readonly kind: "length";
        readonly usual: string;
        /** What it is while nothing is filled in. */
        readonly empty?: string;
      }
    | { readonly kind: "number"; readonly usual: string; readonly unit: string }
    | { readonly kind: "words"; readonly usual: string; readonly hint: string }
    | { readonly kind: "choice"; readonly usual: string; readonly options: readonly Option[] }
    | { readonly kind: "yes"; readonly usual: "" | "yes" }
    | {
        readonly kind: "cloth";
        /** `LARGEST`, or none. */
        readonly usual: string;
        readonly of: "cloth" | "strip_set";
        /** What is said where no cloth has to be named. */
        readonly none?: string;
      }
    | { readonly kind: "drawing"; readonly usual: string }
  );

/** What is filled in, by field. */
export type Typed = Readonly<Record<string, string>>;

/** A stage as the program takes it. */
export type StageAsk = Readonly<Record<string, unknown>>;

/** A stage as it is offered. */
export interface Stage {
  readonly kind: StageKind;
  readonly name: string;
  /** What it is for, in a sentence. */
  readonly words: string;
  readonly fields: readonly Field[];
  /** The field whose choices are worth seeing side by side, if there is one. */
  readonly beside?: string;
  /** The face on which ways differ, where it isn't the one that is up. */
  readonly face?: "front" | "back";
  readonly ask: (typed: Typed) => unknown;
}

/** The cloth that is filled in is the one with the most left. */
export const LARGEST = "largest";

const ORDERS: readonly Option[] = [
  ["apart_first", "sides apart first, then those between"],
  ["in_turn", "each in turn"],
  ["in_turn_partial", "each in turn, first seam in part"],
  ["mitred", "all at once, mitred corners"],
];

const order: Field = {
  kind: "choice",
  name: "order",
  label: "Sides",
  usual: "apart_first",
  options: ORDERS,
};

/** What was filled in, or nothing where it was left empty. */
const said = (text: string | undefined): string | undefined => {
  const plain = text?.trim() ?? "";
  return plain === "" ? undefined : plain;
};

/** A number, or the text itself, so that the program says what is wrong with it. */
const number = (text: string | undefined): number | string | undefined => {
  const plain = said(text);
  if (plain === undefined) return undefined;
  const read = Number(plain.replace(",", "."));
  return Number.isFinite(read) ? read : plain;
};

/** A cloth goes by its number in the heap. */
const cloth = number;

const listed = (text: string | undefined): string[] | undefined => {
  const one = said(text);
  return one === undefined ? undefined : [one];
};

function goal(typed: Typed): unknown {
  const [width_in, height_in] = [said(typed["width"]), said(typed["height"])];
  switch (typed["goal"]) {
    case "border_line":
      return { border_line: { from_seam_in: said(typed["from_seam"]) } };
    case "rectangle":
      return { rectangle: { width_in, height_in } };
    case "rectangle_by_corners":
      return { rectangle_by_corners: { width_in, height_in } };
    case "circle":
      return { circle: { diameter_in: said(typed["across"]) } };
    case "largest_square":
      return { largest: { kind: "square" } };
    case "largest_circle":
      return { largest: { kind: "circle" } };
    default:
      return { largest: { kind: "rectangle" } };
  }
}

function basting(how: string | undefined): unknown {
  switch (how) {
    case "pins":
      return { pins: {} };
    case "spray":
      return { spray: {} };
    case "thread":
      return { thread: {} };
    default:
      return undefined;
  }
}

/** Every stage, in the order in which they are usually done. */
export const STAGES: readonly Stage[] = [
  {
    kind: "ring",
    name: "Ring",
    words: "Slices of a strip set, sewn round the piece.",
    beside: "order",
    fields: [
      { kind: "cloth", name: "cloth", label: "Strip set", usual: "", of: "strip_set" },
      { kind: "length", name: "slice", label: "Slices cut", usual: "1 3/4" },
      { kind: "number", name: "lean", label: "Leaning by", usual: "0", unit: "°" },
      order,
      { kind: "yes", name: "unpick", label: "Unpick slices into stripes", usual: "" },
    ],
    ask: (typed) => ({
      cloth: cloth(typed["cloth"]) ?? "strip set",
      slice_in: said(typed["slice"]),
      lean_deg: number(typed["lean"]),
      order: said(typed["order"]),
      unpick: typed["unpick"] === "yes",
    }),
  },
  {
    kind: "border",
    name: "Border",
    words: "Strips of one cloth round the piece, often sewn wider and trimmed even.",
    beside: "order",
    fields: [
      {
        kind: "cloth",
        name: "cloth",
        label: "Cloth",
        usual: LARGEST,
        of: "cloth",
        none: "sums only",
      },
      { kind: "length", name: "sewn", label: "Sewn, to the raw edge", usual: "2 1/2" },
      { kind: "length", name: "trimmed", label: "Trimmed to", usual: "", empty: "as sewn" },
      order,
      {
        kind: "choice",
        name: "print",
        label: "Print",
        usual: "by_grain",
        options: [
          ["by_grain", "by its grain"],
          ["outward", "pointing outward"],
          ["upright", "upright on the wall"],
        ],
      },
    ],
    ask: (typed) => ({
      cloth: cloth(typed["cloth"]),
      sewn_in: listed(typed["sewn"]),
      trimmed_in: listed(typed["trimmed"]),
      order: said(typed["order"]),
      print: said(typed["print"]),
    }),
  },
  {
    kind: "square_up",
    name: "Squaring up",
    words: "Cut to a true shape, or filled up to one. All sizes raw.",
    beside: "goal",
    fields: [
      {
        kind: "choice",
        name: "goal",
        label: "To",
        usual: "largest_rectangle",
        options: [
          ["largest_rectangle", "the largest rectangle"],
          ["largest_square", "the largest square"],
          ["largest_circle", "the largest circle"],
          ["rectangle", "a rectangle of my size"],
          ["circle", "a circle of my size"],
          ["border_line", "the border’s own line"],
          ["rectangle_by_corners", "a rectangle, by sewing corners on"],
        ],
      },
      {
        kind: "length",
        name: "width",
        label: "Width",
        usual: "20",
        when: ["goal", ["rectangle", "rectangle_by_corners"]],
      },
      {
        kind: "length",
        name: "height",
        label: "Height",
        usual: "20",
        when: ["goal", ["rectangle", "rectangle_by_corners"]],
      },
      { kind: "length", name: "across", label: "Across", usual: "18", when: ["goal", ["circle"]] },
      {
        kind: "length",
        name: "from_seam",
        label: "From the seam",
        usual: "2",
        when: ["goal", ["border_line"]],
      },
      {
        kind: "cloth",
        name: "cloth",
        label: "Corners from",
        usual: "",
        of: "cloth",
        none: "sums only",
        when: ["goal", ["rectangle_by_corners"]],
      },
    ],
    ask: (typed) => ({
      goal: goal(typed),
      cloth: typed["goal"] === "rectangle_by_corners" ? cloth(typed["cloth"]) : undefined,
    }),
  },
  {
    kind: "layers",
    name: "Layers",
    words: "Back and batting, and how they are held together.",
    beside: "back",
    face: "back",
    fields: [
      {
        kind: "choice",
        name: "guiding",
        label: "Quilted",
        usual: "by_hand",
        options: [
          ["by_hand", "on a table, guided by hand"],
          ["frame", "on a frame"],
        ],
      },
      {
        kind: "choice",
        name: "basting",
        label: "Held by",
        usual: "",
        options: [
          ["", "what is usual"],
          ["pins", "pins"],
          ["spray", "spray"],
          ["thread", "basting thread"],
        ],
      },
      { kind: "length", name: "overage", label: "Larger on each side by", usual: "" },
      {
        kind: "choice",
        name: "back",
        label: "Back",
        usual: "whole",
        options: [
          ["whole", "in one piece, where a cloth holds it"],
          ["pieced", "pieced, as it comes out better"],
          ["along", "pieced, seams along the length"],
          ["across", "pieced, seams across the width"],
        ],
      },
    ],
    ask: (typed) => ({
      guiding: typed["guiding"] === "frame" ? { frame: {} } : "by_hand",
      basting: basting(typed["basting"]),
      backing: {
        overage_in: said(typed["overage"]),
        whole: typed["back"] === "whole",
        seams: ["along", "across"].find((run) => run === typed["back"]),
      },
    }),
  },
  {
    kind: "figure",
    name: "Figure",
    words: "Appliquéd near the border; what is too thin to turn under becomes lines of stitches.",
    fields: [
      { kind: "drawing", name: "svg", label: "Drawing", usual: "heron" },
      { kind: "length", name: "height", label: "Height", usual: "6" },
      { kind: "cloth", name: "cloth", label: "Cloth", usual: "", of: "cloth", none: "not settled" },
      { kind: "length", name: "right", label: "From the middle, to the right", usual: "0" },
      { kind: "length", name: "up", label: "From the middle, up", usual: "0" },
      { kind: "length", name: "turn_under", label: "Turned under", usual: "1/8" },
      { kind: "yes", name: "mirror", label: "Facing the other way", usual: "" },
      {
        kind: "yes",
        name: "before",
        label: "Before the quilting, which then goes round it",
        usual: "yes",
      },
    ],
    ask: (typed) => ({
      svg: typed["svg"],
      height_in: said(typed["height"]),
      cloth: cloth(typed["cloth"]),
      from_middle_in: [said(typed["right"]) ?? 0, said(typed["up"]) ?? 0],
      turn_under_in: said(typed["turn_under"]),
      mirror: typed["mirror"] === "yes",
      before_quilting: typed["before"] === "yes",
    }),
  },
  {
    kind: "quilting",
    name: "Quilting",
    words: "Lines over the whole piece, on the front and on the back.",
    beside: "design",
    fields: [
      {
        kind: "choice",
        name: "design",
        label: "Lines",
        usual: "unbroken_spiral",
        options: [
          ["unbroken_spiral", "an unbroken spiral"],
          ["round_spiral", "a round spiral"],
          ["cornered_spiral", "a spiral with corners"],
          ["lines", "straight lines"],
          ["crossed", "crossed lines"],
          ["echoes", "echoes of the outline"],
          ["waves", "waves"],
        ],
      },
      { kind: "length", name: "spacing", label: "Rows apart", usual: "1/2" },
      {
        kind: "number",
        name: "sides",
        label: "Corners of the spiral",
        usual: "4",
        unit: "",
        when: ["design", ["cornered_spiral"]],
      },
      {
        kind: "number",
        name: "angle",
        label: "Lying at",
        usual: "0",
        unit: "°",
        when: ["design", ["lines", "crossed", "waves"]],
      },
      { kind: "length", name: "least", label: "Never closer than", usual: "" },
      { kind: "length", name: "most", label: "Never further than", usual: "" },
      { kind: "words", name: "thread", label: "Thread", usual: "", hint: "a colour: pale grey" },
      { kind: "words", name: "below", label: "Thread below", usual: "", hint: "as above" },
    ],
    ask: (typed) => ({
      design: said(typed["design"]),
      spacing_in: said(typed["spacing"]),
      least_in: said(typed["least"]),
      most_in: said(typed["most"]),
      sides: typed["design"] === "cornered_spiral" ? number(typed["sides"]) : undefined,
      angle_deg: number(typed["angle"]),
      crossing_deg: crossing(typed),
      thread: said(typed["thread"]),
      below: said(typed["below"]),
    }),
  },
  {
    kind: "binding",
    name: "Binding",
    words: "A double strip round the edge, or a facing turned to the back.",
    beside: "finish",
    fields: [
      {
        kind: "choice",
        name: "finish",
        label: "Edge",
        usual: "bound",
        options: [
          ["bound", "bound"],
          ["faced", "faced"],
        ],
      },
      { kind: "cloth", name: "from", label: "Cloth", usual: "", of: "cloth", none: "not settled" },
      {
        kind: "length",
        name: "width",
        label: "Strips cut",
        usual: "2 1/4",
        when: ["finish", ["bound"]],
      },
      {
        kind: "length",
        name: "facing",
        label: "Strips cut",
        usual: "3",
        when: ["finish", ["faced"]],
      },
      {
        kind: "choice",
        name: "join",
        label: "Strips joined",
        usual: "diagonal",
        options: [
          ["diagonal", "diagonally"],
          ["straight", "straight"],
        ],
      },
      { kind: "length", name: "thickness", label: "Thickness of the edge", usual: "1/8" },
    ],
    ask: (typed) => ({
      finish: said(typed["finish"]),
      from: cloth(typed["from"]),
      strip_width_in: said(typed["width"]),
      facing_width_in: said(typed["facing"]),
      join: said(typed["join"]),
      thickness_in: said(typed["thickness"]),
    }),
  },
  {
    kind: "sleeve",
    name: "Sleeve and label",
    words: "A sleeve for the rod, placed so that the piece hangs straight, and a label.",
    fields: [
      { kind: "length", name: "width", label: "Strip cut", usual: "" },
      { kind: "number", name: "up", label: "Turned to hang by", usual: "0", unit: "°" },
      { kind: "length", name: "label_width", label: "Label, width", usual: "4" },
      { kind: "length", name: "label_height", label: "Label, height", usual: "3" },
    ],
    ask: (typed) => ({
      strip_width_in: said(typed["width"]),
      up_deg: number(typed["up"]),
      label_in: [said(typed["label_width"]) ?? 4, said(typed["label_height"]) ?? 3],
    }),
  },
];

/** Crossed lines lie square to each other. */
function crossing(typed: Typed): number | string | undefined {
  const angle = number(typed["angle"]);
  return typed["design"] === "crossed" && typeof angle === "number" ? angle + 90 : undefined;
}

/** A stage by its name in a plan. */
export const stageOf = (kind: StageKind): Stage =>
  STAGES.find((one) => one.kind === kind) ?? (STAGES[0] as Stage);

/** A stage's fields as they usually are, with this heap. */
export const usual = (stage: Stage, heap: readonly Cloth[]): Typed =>
  Object.fromEntries(
    stage.fields.map((field) => [
      field.name,
      field.kind === "cloth" && field.usual === LARGEST ? largest(heap) : field.usual,
    ]),
  );

/** The number of the whole cloth with the most left that no plan lays claim to; empty without one. */
function largest(heap: readonly Cloth[]): string {
  const left = (cloth: Cloth): number => cloth.area_in2 * (1 - cloth.claimed);
  const whole = heap.filter((cloth) => !MADE.includes(cloth.kind));
  const [first] = whole.toSorted((a, b) => left(b) - left(a));
  return first ? String(first.no) : "";
}

/** Kinds of cloth that are not cut into strips. */
const MADE: readonly string[] = ["stripset", "binding", "batting"];

/** The fields that mean something beside what is filled in. */
export const shown = (stage: Stage, typed: Typed): readonly Field[] =>
  stage.fields.filter(({ when }) => !when || when[1].includes(typed[when[0]] ?? ""));

/** What is asked of the program. */
export const askOf = (stage: Stage, typed: Typed): StageAsk => ({ [stage.kind]: stage.ask(typed) });

/** One of several ways to be seen side by side. */
export interface Way {
  readonly word: string;
  readonly typed: Typed;
}

/** The ways of a stage that are worth seeing side by side, all else as it is filled in. */
export function ways(stage: Stage, typed: Typed): readonly Way[] {
  const field = stage.fields.find((one) => one.name === stage.beside);
  if (field?.kind !== "choice") return [];
  return field.options.map(([value, word]) => ({ word, typed: { ...typed, [field.name]: value } }));
}
