// What the program answers and takes, by the names that the page uses. The types themselves are
// written by `cargo xtask types`; lengths are inches, areas square inches.

import type { components } from "./types.gen";

type Schemas = components["schemas"];

export type Answer = Schemas["AnswerView"];
export type Ask = Schemas["AskView"];
export type Begun = Schemas["BegunView"];
export type Bend = Schemas["BendView"];
export type Cards = Schemas["CardsView"];
export type CaughtUp = Schemas["CaughtUpView"];
export type Cloth = Schemas["ClothView"];
export type ClothOutline = Schemas["ClothOutlineView"];
export type Enough = Schemas["EnoughView"];
export type Entered = Schemas["EnteredView"];
export type Entry = Schemas["EntryView"];
export type Eye = Schemas["EyeView"];
export type EyeMark = Schemas["MarkView"];
export type EyeRow = Schemas["RowView"];
export type Found = Schemas["FoundView"];
export type Grade = Schemas["GradeView"];
export type Head = Schemas["HeadView"];
export type Job = Schemas["JobView"];
export type Jobs = Schemas["JobsView"];
export type Kept = Schemas["KeptBody"];
export type Log = Schemas["LogView"];
export type Looks = Schemas["LooksView"];
export type Measure = Schemas["MeasureView"];
export type NewPatch = Schemas["NewPatchView"];
export type OwnWords = Schemas["WordsView"];
export type PaperOffered = Schemas["PaperView"];
export type Patch = Schemas["PatchView"];
export type Photo = Schemas["PhotoView"];
export type PhotoEye = Schemas["PhotoEyeView"];
export type PhotoState = Schemas["PhotoState"];
export type PieceSeen = Schemas["PieceSeenView"];
export type Problem = Schemas["ProblemView"];
export type Proposal = Schemas["ProposalView"];
export type Quilt = Schemas["QuiltView"];
export type Same = Schemas["SameView"];
export type Scrap = Schemas["ScrapAsk"];
export type Seam = Schemas["SeamView"];
export type Seen = Schemas["SeenView"];
export type Side = Schemas["SideView"];
export type Stash = Schemas["StashView"];
export type Table = Schemas["TableView"];
export type Tabletop = Schemas["TabletopView"];
export type Term = Schemas["TermView"];
export type Told = Schemas["ToldView"];
export type Top = Schemas["TopView"];
export type Undone = Schemas["UndoneView"];
export type Wish = Schemas["WishView"];
export type WishChange = Schemas["WishChange"];
export type Workroom = Schemas["RoomView"];

/** A paper as it was made, and what it goes without. */
export interface PaperMade {
  readonly pages: Blob;
  /** Pictures that are missing or damaged. */
  readonly lost: number;
  /** Papers, by name, that a booklet goes without. */
  readonly leftOut: readonly string[];
}

/** How papers are wished, as the address of a paper takes it. */
export interface PaperWish {
  readonly paper: "a4" | "letter";
  readonly ink_saving: boolean;
  readonly cm: boolean;
  readonly left_handed: boolean;
  readonly by_template: boolean;
  readonly small_cards: boolean;
  readonly mirrored: boolean;
  readonly anyway: boolean;
}
