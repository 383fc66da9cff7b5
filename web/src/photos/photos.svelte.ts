// Photographs that are looked at: which were given, how far each has been read, which of the cloths
// found the maker ticks, what the piece came to. All measures are the program's.

import * as api from "../api/client";
import { Refusal, type From, type PhotoOf } from "../api/client";
import type { Cards, CaughtUp, Found, PieceSeen, Same, Tabletop } from "../api/types";
import type { Place } from "./corners";

/** How often a picture that is being read is looked at, in milliseconds. */
const PAUSE = 250;

/** How many pictures are read before the first of them has been dealt with: the program remembers few. */
const AHEAD = 2;

/** What the maker says a picture is of: scraps, the piece as it was planned, or the piece with what was
    sewn on since. */
export type LookFor = PhotoOf | "sewn";

/** How far a picture has come. */
export type State = "waiting" | "reading" | "read" | "refused" | "done";

/** What the maker says of a cloth that was found. */
export interface Pick {
  readonly keep: boolean;
  readonly name: string;
  /** What is of the same print: a print of the heap, or another cloth of the picture. */
  readonly same: Same | null;
}

/** A picture that was given. */
export class Picture {
  state = $state<State>("waiting");
  /** What is being done with it while it is read. */
  doing = $state("");
  seen = $state.raw<Tabletop | null>(null);
  refusal = $state.raw<{ readonly message: string; readonly hint: string | null } | null>(null);
  picks = $state.raw<readonly Pick[]>([]);
  /** What came of it, once it is done with. */
  words = $state("");
  number = 0;

  constructor(
    readonly key: number,
    readonly file: File,
    readonly of: LookFor,
  ) {}

  get name(): string {
    return this.file.name;
  }

  readonly kept = $derived(this.picks.filter((pick) => pick.keep).length);

  /** Changes what is said of a cloth. */
  pick(no: number, change: Partial<Pick>): void {
    this.picks = this.picks.map((pick, i) => (i === no ? { ...pick, ...change } : pick));
  }

  /** Takes in what the program says of a cloth now. */
  takeIn(found: Found): void {
    if (!this.seen) return;
    const all = this.seen.found.map((one) => (one.no === found.no ? found : one));
    this.seen = { ...this.seen, found: all };
  }
}

/** The pictures of this page. */
export class Photos {
  of = $state<LookFor>("scraps");
  /** What is measured by; null until it was asked for. */
  cards = $state.raw<Cards | null>(null);
  pictures = $state.raw<readonly Picture[]>([]);
  current = $state.raw<Picture | null>(null);
  /** The cloth that is in hand, by its place. */
  inHand = $state<number | null>(null);
  /** The piece as it was seen, and which of the found it is. */
  piece = $state.raw<PieceSeen | null>(null);
  /** What was sewn on since, as far as it is seen. */
  sewn = $state.raw<CaughtUp | null>(null);
  /** Of which cloth each new patch is, as the maker says; null for one that stays as it was found. */
  madeOf = $state.raw<readonly (string | null)[]>([]);
  /** Why what was sewn can't be told. */
  untold = $state.raw<{ readonly message: string; readonly hint: string | null } | null>(null);
  /** Whether the photograph lies on the drawing. */
  laid = $state(true);
  /** The side of the piece that is pointed at. */
  pointedSide = $state<string | null>(null);
  #given = 0;
  #reading = false;

  /** How many wait or are being read. */
  readonly due = $derived(
    this.pictures.filter(({ state }) => state === "waiting" || state === "reading").length,
  );

  /** Pictures to be read, one after the other. */
  give(files: readonly File[]): void {
    const given = files.map((file) => new Picture((this.#given += 1), file, this.of));
    this.pictures = [...this.pictures.filter(({ state }) => state !== "refused"), ...given];
    if (!this.current || this.current.state === "done" || this.current.state === "refused")
      this.show(given[0] ?? null);
    void this.#read();
  }

  /** The same pictures, looked at as something else. */
  lookAs(of: LookFor): void {
    this.of = of;
    const [done, open] = [
      this.pictures.filter(({ state }) => state === "done"),
      this.pictures.filter(({ state }) => state !== "done"),
    ];
    this.pictures = done;
    for (const { number } of open) this.#forget(number);
    this.show(null);
    if (open.length > 0) this.give(open.map(({ file }) => file));
  }

  #forget(number: number): void {
    if (number) void api.forgetPhoto(number).catch(() => undefined);
  }

  /** Brings a picture to the front. */
  show(picture: Picture | null): void {
    this.current = picture;
    this.inHand = null;
    this.forgetPiece();
  }

  /** Takes the piece's photograph off the drawing. */
  forgetPiece(): void {
    this.piece = null;
    this.sewn = null;
    this.untold = null;
    this.pointedSide = null;
  }

  /** Puts a picture aside, and brings the next to the front. */
  drop(picture: Picture): void {
    const at = this.pictures.indexOf(picture);
    this.pictures = this.pictures.filter((one) => one !== picture);
    if (this.current === picture) this.show(this.pictures[at] ?? this.pictures[at - 1] ?? null);
    this.#forget(picture.number);
    void this.#read();
  }

  /** A picture is done with; the next that waits for the maker comes to the front. */
  done(picture: Picture, words: string): void {
    picture.state = "done";
    picture.words = words;
    this.show(
      this.pictures.find(({ state }) => state !== "done" && state !== "refused") ?? picture,
    );
    void this.#read();
  }

  /** Has an outline put right; null has it again as it was found. */
  async correct(picture: Picture, no: number, outline: readonly Place[] | null): Promise<void> {
    picture.takeIn(await api.correct(picture.number, no, outline));
    this.forgetPiece();
  }

  /** Puts what is ticked into the heap; what the program says of it. */
  async keep(picture: Picture): Promise<string> {
    const kept = picture.picks.flatMap(({ keep, name, same }, no) => {
      // What isn't ticked can't lend its print.
      const lent = same?.kind !== "beside" || (picture.picks[same.no]?.keep ?? false);
      return keep ? [{ no, name, same: lent ? same : null }] : [];
    });
    const { words } = await api.keep(picture.number, kept);
    this.done(picture, words);
    return words;
  }

  /** Holds a cloth that was found against the plan of the piece. */
  async compare(picture: Picture, no: number, from: From, turned: number): Promise<void> {
    this.piece = await api.comparePiece(picture.number, from, no, turned);
    this.laid = true;
  }

  /** Reads what was sewn on since, and takes the likest cloths for its own. */
  async lookSewn(picture: Picture, no: number, from: From): Promise<void> {
    this.forgetPiece();
    try {
      const sewn = await api.sewnSince(picture.number, from, no);
      // Another picture may have come to the front.
      if (this.current !== picture) return;
      this.madeOf = sewn.patches.map(({ likest }) => likest);
      this.sewn = sewn;
    } catch (error) {
      if (!(error instanceof Refusal) || error.stale) throw error;
      if (this.current === picture) this.untold = { message: error.message, hint: error.hint };
    }
  }

  /** Says of which cloth a new patch is. */
  sayMadeOf(which: number, cloth: string | null): void {
    this.madeOf = this.madeOf.map((one, i) => (i === which ? cloth : one));
  }

  async #read(): Promise<void> {
    if (this.#reading) return;
    this.#reading = true;
    try {
      for (;;) {
        const ahead = this.pictures.filter(({ state }) => state === "read").length;
        const next = this.pictures.find(({ state }) => state === "waiting");
        if (!next || ahead >= AHEAD) return;
        await this.#readOne(next);
      }
    } finally {
      this.#reading = false;
    }
  }

  async #readOne(picture: Picture): Promise<void> {
    picture.state = "reading";
    try {
      this.cards ??= await api.cards();
      const { most_bytes } = this.cards;
      if (picture.file.size > most_bytes) {
        const message = `${picture.name} has more than ${most_bytes >> 20} megabytes.`;
        throw new Refusal(message, "Save it smaller, as JPEG.", 413);
      }
      const of = picture.of === "sewn" ? "piece" : picture.of;
      let seen = await api.givePhoto(picture.file, picture.name, of);
      picture.number = seen.photo;
      while (!seen.ended) {
        picture.doing = seen.doing ?? "";
        await new Promise((again) => setTimeout(again, PAUSE));
        seen = await api.photo(seen.photo);
      }
      if (!seen.seen) {
        picture.refusal = seen.error ?? { message: "It ended without a reason.", hint: null };
        picture.state = "refused";
        return;
      }
      picture.seen = seen.seen;
      const again = seen.seen.entered_before;
      picture.picks = seen.seen.found.map((found) => ({
        keep: found.doubts.length === 0 && again.length === 0,
        name: found.name,
        same: null,
      }));
      picture.state = "read";
    } catch (error) {
      const hint = error instanceof Refusal ? error.hint : null;
      picture.refusal = { message: error instanceof Error ? error.message : String(error), hint };
      picture.state = "refused";
    }
  }
}
