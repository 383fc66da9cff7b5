// What the page is looking at: which quilt and head, where on the log, which face, what is asked.
//
// All of it comes from the program and can be read again at any time; nothing here is a truth about
// the quilt. Whoever changes it goes through the functions below.

import * as api from "./api/client";
import { Refusal, type Face } from "./api/client";
import type {
  Answer,
  Ask,
  Bend,
  Cloth,
  ClothOutline,
  EyeMark,
  Head,
  Log,
  PhotoEye,
  Proposal,
  Quilt,
  Scrap,
  Table,
} from "./api/types";
import { remembering } from "./drawing/cache";
import { Finishing } from "./finishing/finishing.svelte";
import type { StageKind } from "./finishing/stages";
import { Growing } from "./growing.svelte";
import { layBefore } from "./log/patch";
import { lastRun } from "./log/run";
import { Photos, type Picture } from "./photos/photos.svelte";
import type { Place } from "./photos/corners";
import { hashOf, placeIn } from "./place";

/** What lies at the edge of the table, if anything. */
export type Paper =
  | "heap"
  | "next"
  | "eye"
  | "what_ifs"
  | "wish"
  | "finish"
  | "instead"
  | "lay"
  | "outline"
  | "papers"
  | "photo"
  | "quilt"
  | null;

/** Something that can be done about what a slip says. */
export interface Deed {
  readonly word: string;
  readonly run: () => void;
}

/** Something the program said that the maker should read. */
export interface Slip {
  /** Whether something went wrong. */
  readonly wrong: boolean;
  readonly message: string;
  readonly hint: string | null;
  readonly remedies: readonly string[];
  readonly deeds: readonly Deed[];
}

const said = (wrong: boolean, message: string, more: Partial<Slip> = {}): Slip => ({
  wrong,
  message,
  hint: null,
  remedies: [],
  deeds: [],
  ...more,
});

/** How many proposals are asked for. */
const PROPOSALS = 6;

const NO_LOG: Log = { tip: null, sewn: null, version: 0, entries: [] };

/** The state of the page. */
export class Room {
  quilts = $state.raw<readonly Quilt[]>([]);
  quilt = $state("");
  head = $state("");
  cloths = $state.raw<readonly Cloth[]>([]);
  log = $state.raw<Log>(NO_LOG);
  /** How many steps of the log are done in what is shown. */
  at = $state(0);
  face = $state<Face>("front");
  lettering = $state.raw({ labels: false, measures: false });
  /** Whether the photograph of the piece is shown under what is planned. */
  photographed = $state(false);
  /** The cloth of the heap whose outline is looked at. */
  outlined = $state<string | null>(null);
  paper = $state<Paper>(null);
  /** What is proposed; null while nothing was answered yet. */
  proposals = $state.raw<readonly Proposal[] | null>(null);
  /** Why nothing is proposed, when nothing is. */
  whyNone = $state("");
  /** What proposals were bent to, if anything. */
  bend = $state.raw<Bend | null>(null);
  /** The proposal that was waved away last, by its cloths. */
  waved = $state<string | null>(null);
  /** The proposal that is pointed at: it is shown on the piece. */
  ghost = $state.raw<Proposal | null>(null);
  /** What undoing would take back. */
  undoable = $state<string | null>(null);
  /** The side that proposals were asked for, or null for the best one. */
  side = $state<string | null>(null);
  tipTable = $state.raw<Table | null>(null);
  slip = $state.raw<Slip | null>(null);
  /** The cloth of the heap that the hand is over, or that was picked out to be found in the piece. */
  hoveredCloth = $state<string | null>(null);
  chosenCloth = $state<string | null>(null);
  /** The row of the eye check that is pointed at, and its marks on the drawing. */
  eyeRow = $state<string | null>(null);
  marks = $state.raw<readonly EyeMark[]>([]);
  #pending = $state(0);
  #asked = 0;
  ready = $state(false);

  /** Whether something is being asked, or grown. */
  readonly busy = $derived(this.#pending > 0);

  /** What is growing, if anything. */
  readonly growing = new Growing();

  /** The stages after the centre, and what is looked at of them. */
  readonly finishing = new Finishing();

  /** Photographs that were given, and what was found on them. */
  readonly photos = new Photos();
  /** The paper that lies open, by its name. */
  paperSeen = $state<string | null>(null);

  /** The text of a drawing, fetched once. */
  readonly drawing = remembering(api.drawing);

  /** What lies on the table after a step, read once. */
  readonly tableAt = remembering(api.table);

  readonly pointedCloth = $derived(this.hoveredCloth ?? this.chosenCloth);
  readonly heads: readonly Head[] = $derived(
    this.quilts.find((one) => one.name === this.quilt)?.heads ?? [],
  );
  readonly entry = $derived(this.at > 0 ? (this.log.entries[this.at - 1] ?? null) : null);
  readonly atTip = $derived(this.at === this.log.entries.length);
  /** The entry whose photograph the piece was measured by last, as far as the log is shown. */
  readonly photograph = $derived(
    this.log.entries.slice(0, this.at).findLast((entry) => entry.photo !== null) ?? null,
  );
  readonly #photo = $derived(this.photographed && this.photograph?.photo === "kept");
  /** The drawing of a stage that is looked at, while one is. */
  readonly #lookUrl = $derived(this.finishing.drawingUrl(this.face, this.lettering));
  readonly drawingUrl = $derived(
    this.#lookUrl
      ? this.#lookUrl
      : this.entry
        ? api.drawingUrl(this.entry.step, this.face, this.lettering, this.log.sewn, this.#photo)
        : null,
  );
  /** The drawing that the head comes to, on the face that is up. */
  readonly tipDrawingUrl = $derived(
    this.#lookUrl
      ? this.#lookUrl
      : this.log.tip
        ? api.drawingUrl(this.log.tip, this.face, this.lettering, this.log.sewn)
        : null,
  );
  /** The patch that the place on the log is about: the entry that laid it. */
  readonly layHere = $derived(layBefore(this.log.entries, this.at));
  /** The number of steps that are sewn. */
  readonly sewnSteps = $derived(this.log.entries.filter((entry) => entry.sewn).length);

  /** Reads everything anew and stays where the page was, if that is still there. */
  async open(): Promise<void> {
    await this.#tried(async () => {
      const kept = this.quilt ? { quilt: this.quilt, head: this.head } : placeIn(location.hash);
      await this.#readQuilts();
      const quilt = this.quilts.find((one) => one.name === kept.quilt) ?? this.quilts[0];
      const head = quilt?.heads.find((one) => one.name === kept.head) ?? quilt?.heads[0];
      if (quilt && head) await this.#look(quilt.name, head.name);
      else await this.#lookAtNothing();
    });
    this.ready = true;
    void this.#findJob();
  }

  async #readQuilts(): Promise<void> {
    const room = await api.workroom();
    this.quilts = room.quilts;
    this.undoable = room.undo;
  }

  /** A workroom without a quilt has a heap all the same. */
  async #lookAtNothing(): Promise<void> {
    this.quilt = this.head = "";
    this.log = NO_LOG;
    this.at = 0;
    this.tipTable = null;
    this.cloths = (await api.stash(null)).cloths;
  }

  /** Finds again what grows on this quilt, if the page was opened anew meanwhile. */
  async #findJob(): Promise<void> {
    if (this.growing.job || !this.quilt) return;
    const job = await this.growing.found(this.quilt).catch(() => null);
    if (job) await this.#grown(job.quilt, job.head, () => this.growing.follow(job));
  }

  /** Lays another quilt, or another head of it, on the table. */
  async lay(quilt: string, head?: string): Promise<void> {
    const named = this.quilts.find((one) => one.name === quilt);
    const first = head ?? named?.heads[0]?.name;
    if (first !== undefined) await this.#tried(() => this.#look(quilt, first));
  }

  /** Reads the log and the heap again, and goes to its tip if the page stood at the tip. */
  async #look(quilt: string, head: string): Promise<void> {
    const same = quilt === this.quilt && head === this.head;
    const stay = same && !this.atTip ? this.at : null;
    const [log, stash] = await Promise.all([api.log(quilt, head), api.stash(quilt)]);
    if (log.tip !== this.log.tip || !same) this.#putAwayProposals();
    if (!same) history.replaceState(null, "", hashOf({ quilt, head }));
    this.quilt = quilt;
    this.head = head;
    this.log = log;
    this.cloths = stash.cloths;
    this.at = Math.min(stay ?? log.entries.length, log.entries.length);
    this.tipTable = log.tip ? await this.tableAt(log.tip) : null;
  }

  /** Asks for something that may change the log; reads anew what came of it. */
  async ask(what: Ask): Promise<Answer | null> {
    return this.#tried(async () => {
      const answer = await api.ask(this.quilt, this.head, this.log.tip, what);
      await this.#takeIn(answer);
      // Why nothing is proposed is told where the proposals would be.
      if (!answer.proposals) this.#tell(answer);
      return answer;
    });
  }

  /** Grows, or grows what-ifs, while the page can be looked at; reads anew what came of it. */
  async grow(what: Ask): Promise<Answer | null> {
    if (this.growing.job) return null;
    const { quilt, head } = this;
    return this.#grown(quilt, head, () => this.growing.run(quilt, head, this.log.tip, what));
  }

  async #grown(quilt: string, head: string, job: () => Promise<Answer>): Promise<Answer | null> {
    return this.#tried(async () => {
      const answer = await job();
      // Another quilt or head may lie on the table by now.
      if (quilt === this.quilt && head === this.head) await this.#takeIn(answer, true);
      else await this.#readQuilts();
      this.#tell(answer);
      return answer;
    });
  }

  /** Stops what is growing; what is there by then is kept. */
  async stop(): Promise<void> {
    await this.growing.stop().catch((error: unknown) => this.stumble(error));
  }

  /** Reads anew what an ask has changed. */
  async #takeIn(answer: Answer, always = false): Promise<void> {
    if (always || answer.tip !== this.log.tip || answer.version !== this.log.version) {
      await this.#readQuilts();
      if (this.log.tip !== answer.tip) this.at = this.log.entries.length;
      await this.#look(this.quilt, this.head);
    }
  }

  /** Tells what an answer says. */
  #tell(answer: Answer): void {
    const [problem] = answer.problems ?? [];
    if (problem) this.slip = said(true, problem.message, { remedies: problem.remedies });
    else if (answer.words) this.slip = said(false, answer.words);
  }

  /** Puts a scrap into the heap; whether it went in. */
  async enter(scrap: Scrap): Promise<boolean> {
    const entered = await this.#tried(async () => {
      const entered = await api.enter(scrap);
      this.cloths = (await api.stash(this.quilt || null)).cloths;
      this.#putAwayProposals();
      await this.#readQuilts();
      this.slip = said(false, entered.words);
      return entered;
    });
    return entered !== null;
  }

  /** Begins a quilt and lays it on the table; whether it was begun. */
  async beginQuilt(name: string): Promise<boolean> {
    const begun = await this.#tried(async () => {
      const begun = await api.beginQuilt(name);
      await this.#readQuilts();
      await this.#look(begun.quilt, begun.head);
      return begun;
    });
    return begun !== null;
  }

  /** Lays a first patch, a rectangle; whether it was laid. */
  async layFirst(cloth: string, wide: string, deep: string): Promise<boolean> {
    const answer = await this.ask({ kind: "lay", cloth, wide, deep });
    return answer !== null && !answer.problems;
  }

  /**
   * Says that the patch the page stands at was cut from another cloth, about so large. What the heap
   * has no room for is refused, unless it is so all the same.
   */
  async instead(
    cloth: string,
    wide: string | null,
    deep: string | null,
    anyway = false,
  ): Promise<boolean> {
    const lay = this.layHere;
    if (!lay) return false;
    const { at } = this;
    const answer = await this.ask({ kind: "instead", patch: lay.mark, cloth, wide, deep, anyway });
    if (answer && !answer.problems) this.goTo(at);
    else if (!anyway && this.slip?.hint?.includes("--anyway")) {
      // On the page it is said by pressing.
      const again = async (): Promise<void> => {
        if (await this.instead(cloth, wide, deep, true)) this.putAway();
      };
      const hint = "Check the cloth and the size.";
      this.slip = { ...this.slip, hint, deeds: [{ word: "It was so", run: () => void again() }] };
    }
    return answer !== null && !answer.problems;
  }

  /** What is proposed follows another wish from now on. */
  wished(): void {
    this.#putAwayProposals();
    void this.#readQuilts().catch((error: unknown) => this.stumble(error));
  }

  /** Asks for the next piece on a side, or on the best one; bent, if that is wished. */
  async askNext(side: string | null, bend: Bend | null = null): Promise<void> {
    this.paper = "next";
    this.finishing.forget();
    this.chosenCloth = null;
    this.side = side;
    this.bend = bend;
    this.at = this.log.entries.length;
    this.proposals = null;
    this.waved = null;
    this.#offered(await this.ask({ kind: "next", ...this.#asking() }));
  }

  /** What proposals are asked for: the same for taking and refusing, so that numbers agree. */
  #asking(): { count: number; side?: string; bend?: Bend } {
    const side = this.side ? { side: this.side } : {};
    return { count: PROPOSALS, ...side, ...(this.bend ? { bend: this.bend } : {}) };
  }

  #offered(answer: Answer | null): void {
    this.ghost = null;
    if (!answer?.proposals) return;
    this.#asked += 1;
    // The same address is another drawing next time.
    this.proposals = answer.proposals.map((one) => ({
      ...one,
      preview_svg_url: `${one.preview_svg_url}?asked=${this.#asked}`,
      patches: one.patches.map((patch) => ({
        ...patch,
        cut_svg_url: `${patch.cut_svg_url}?asked=${this.#asked}`,
      })),
    }));
    this.whyNone = answer.words ?? "";
  }

  /** Takes a proposal: it is chalk on the log until it is sewn. */
  async take(proposal: Proposal): Promise<void> {
    const answer = await this.ask({ kind: "take", proposal: proposal.no, ...this.#asking() });
    if (answer && this.paper === "next") await this.askNext(null);
  }

  /** Waves a proposal away: it isn't proposed again. The log does not hear of it. */
  async refuse(proposal: Proposal): Promise<void> {
    const before = this.proposals;
    this.ghost = null;
    this.proposals = (before ?? []).filter((one) => one !== proposal);
    const answer = await this.ask({ kind: "refuse", proposal: proposal.no, ...this.#asking() });
    if (answer) this.waved = proposal.cloth_name;
    else this.proposals = before;
    this.#offered(answer);
  }

  /** Proposes again what was waved away. */
  async forgetRefusals(): Promise<void> {
    this.proposals = null;
    this.#offered(await this.ask({ kind: "forget_refusals", ...this.#asking() }));
    this.waved = null;
  }

  /** Says that everything up to what is shown is sewn. */
  async sewn(): Promise<void> {
    if (this.entry) await this.ask({ kind: "sewn", upto: this.entry.mark });
  }

  /** Takes the last run back; asks first when some of it is sewn. */
  unpick(): void {
    const run = lastRun(this.log.entries);
    if (!run.some((entry) => entry.sewn)) {
      void this.#unpick();
      return;
    }
    this.slip = said(false, "This is sewn. Unpick it?", {
      hint: "Its seams come out, and its patches come back to the heap as cloth.",
      deeds: [
        { word: "Unpick it", run: () => void this.#unpick() },
        { word: "Leave it", run: () => (this.slip = null) },
      ],
    });
  }

  async #unpick(): Promise<void> {
    const before = this.log.entries.length;
    const answer = await this.ask({ kind: "unpick" });
    if (!answer || answer.problems || this.slip) return;
    const steps = before - this.log.entries.length;
    this.slip = said(false, `Unpicked: ${steps === 1 ? "one step" : `${steps} steps`} back.`, {
      deeds: [{ word: "Sew it again", run: () => void this.resew() }],
    });
  }

  /** Goes forward again to where the head was before it was unpicked. */
  async resew(): Promise<void> {
    const answer = await this.ask({ kind: "resew" });
    if (answer && !answer.problems && !this.slip)
      this.slip = said(false, "It is planned again, as chalk: what was unpicked isn’t sewn now.");
  }

  /** Takes back what was done last in the workroom, whatever it was. */
  async undo(): Promise<void> {
    const undone = await this.#tried(api.undo);
    if (!undone) return;
    this.#putAwayProposals();
    await this.open();
    this.slip ??= said(false, undone.words);
  }

  /** Goes to a place on the log. */
  goTo(place: number): void {
    this.finishing.forget();
    this.at = Math.min(this.log.entries.length, Math.max(0, Math.round(place)));
  }

  /** Brings a paper to the edge of the table, or puts it away if it lies there. */
  show(paper: Exclude<Paper, null>): void {
    if (this.paper === paper) this.putAway();
    else if (paper === "next") void this.askNext(null);
    else {
      this.#letGo();
      this.finishing.forget();
      this.paper = paper;
    }
  }

  /** Puts the paper away. */
  putAway(): void {
    this.#letGo();
    this.finishing.forget();
    this.paper = null;
  }

  /** Nothing is pointed at or picked out any more. */
  #letGo(): void {
    this.photos.forgetPiece();
    this.paperSeen = null;
    this.side = null;
    this.bend = null;
    this.eyeRow = null;
    this.ghost = null;
    this.chosenCloth = this.hoveredCloth = null;
  }

  /** Writes names or measures onto the drawing, or wipes them off. */
  letter(what: keyof api.Lettering): void {
    this.lettering = { ...this.lettering, [what]: !this.lettering[what] };
  }

  /** Shows the photograph of the piece under what is planned, or puts it away. */
  showPhotograph(): void {
    this.photographed = !this.photographed;
    if (!this.photographed || this.photograph?.photo !== "missing") return;
    this.slip = said(
      true,
      `The photograph of step ${this.photograph.mark} is gone from the workroom.`,
      {
        hint: "The drawing shows the cloth instead. Measure the piece from a photograph once more.",
      },
    );
  }

  /** Looks at the outline of a cloth of the heap. */
  showOutline(cloth: string): void {
    this.#letGo();
    this.finishing.forget();
    this.outlined = cloth;
    this.paper = "outline";
  }

  /** Has the outline of a cloth of the heap put right; null where it is refused. */
  async correctCloth(cloth: string, outline: readonly Place[]): Promise<ClothOutline | null> {
    return this.#tried(async () => {
      const now = await api.correctCloth(cloth, outline);
      this.cloths = (await api.stash(this.quilt || null)).cloths;
      this.#putAwayProposals();
      await this.#readQuilts();
      return now;
    });
  }

  /** Reads anew if the log has grown elsewhere. Says nothing when the program does not answer. */
  async refresh(): Promise<void> {
    if (this.busy || !this.quilt) return;
    const log = await api.log(this.quilt, this.head).catch(() => null);
    if (log && (log.tip !== this.log.tip || log.sewn !== this.log.sewn)) await this.open();
  }

  /** Tells of something that went wrong. */
  stumble(error: unknown): void {
    this.slip = slipFrom(error);
  }

  /** From where a stage is looked at, and taken. */
  get #from(): api.From {
    return { quilt: this.quilt, head: this.head, tip: this.log.tip };
  }

  /** Chooses a stage to look at. */
  chooseStage(kind: StageKind): void {
    this.finishing.choose(kind, this.cloths);
  }

  /** Looks at the stage as it is filled in, or at its ways side by side. Nothing is changed. */
  async lookAtStage(beside = false): Promise<void> {
    this.at = this.log.entries.length;
    await this.#tried(() => this.finishing.look(this.#from, beside));
  }

  /** Takes the stage that was looked at: it is chalk on the log, and can be unpicked. */
  async takeStage(): Promise<void> {
    const stage = this.finishing.asked();
    if (!stage) return;
    await this.#tried(async () => {
      const answer = await api.takeStage(this.#from, stage, this.finishing.ownSvg);
      if (!answer.problems) this.finishing.leave();
      this.at = this.log.entries.length;
      await this.#takeIn(answer);
      this.#tell(answer);
    });
  }

  /** Reads what photographs are measured by. */
  async readCards(): Promise<void> {
    await this.#tried(async () => {
      this.photos.cards = await api.cards();
    });
  }

  /** Keeps what a card's black square measures; whether it can be. */
  async measureCards(side: string): Promise<boolean> {
    const cards = await this.#tried(() => api.measureCards(side));
    if (cards) this.photos.cards = cards;
    return cards !== null;
  }

  /** Has an outline on a photograph put right, or found again. */
  async correctOutline(
    picture: Picture,
    no: number,
    outline: readonly Place[] | null,
  ): Promise<void> {
    await this.#tried(() => this.photos.correct(picture, no, outline));
  }

  /** Puts what is ticked on a photograph into the heap. */
  async keepPhoto(picture: Picture): Promise<void> {
    await this.#tried(async () => {
      const words = await this.photos.keep(picture);
      this.cloths = (await api.stash(this.quilt || null)).cloths;
      this.#putAwayProposals();
      await this.#readQuilts();
      this.slip = said(false, words);
    });
  }

  /** Holds a cloth on a photograph against the plan of the piece, and lays the photograph on it. */
  async comparePiece(picture: Picture, no: number, turned: string): Promise<void> {
    this.at = this.log.entries.length;
    this.face = "front";
    await this.#tried(() => this.photos.compare(picture, no, this.#from, Number(turned)));
  }

  /** What the eye sees of the piece on a photograph, by the wish of the quilt on the table. */
  async eyeOfPhoto(picture: Picture): Promise<PhotoEye | null> {
    return this.#tried(() => api.photoEye(picture.number, this.log.tip ? this.quilt : null));
  }

  /** What was seen of the piece takes the place of what was planned. */
  async takePiece(picture: Picture, no: number, turned: string): Promise<void> {
    await this.#tried(async () => {
      const answer = await api.takePiece(picture.number, this.#from, no, Number(turned));
      if (!answer.problems) this.photos.done(picture, answer.words ?? "It is measured.");
      await this.#takeIn(answer);
      this.#tell(answer);
    });
  }

  /** Reads from a photograph of the piece what was sewn on since the last step. */
  async lookSewn(picture: Picture, no: number): Promise<void> {
    this.at = this.log.entries.length;
    await this.#tried(() => this.photos.lookSewn(picture, no, this.#from));
  }

  /** What was sewn on since comes into the log, each patch of its cloth. */
  async takeSewn(picture: Picture, no: number): Promise<void> {
    await this.#takeSeen(picture, () =>
      api.takeSewn(picture.number, this.#from, no, this.photos.madeOf),
    );
  }

  /** The whole piece as it was found comes in the place of what is known of it. */
  async takeAsFound(picture: Picture, no: number): Promise<void> {
    await this.#takeSeen(picture, () => api.takeAsFound(picture.number, this.#from, no));
  }

  async #takeSeen(picture: Picture, take: () => Promise<Answer>): Promise<void> {
    await this.#tried(async () => {
      const answer = await take();
      if (!answer.problems) this.photos.done(picture, answer.words ?? "It is taken in.");
      await this.#takeIn(answer);
      this.cloths = (await api.stash(this.quilt || null)).cloths;
      this.#tell(answer);
    });
  }

  /** Holds all that is chosen against the heap. */
  async askEnough(): Promise<void> {
    await this.#tried(async () => {
      this.finishing.enough = await api.enough(this.quilt, this.head);
    });
  }

  #putAwayProposals(): void {
    this.finishing.forget();
    this.photos.forgetPiece();
    this.proposals = null;
    this.side = null;
    this.bend = null;
    this.ghost = null;
    this.waved = null;
  }

  /** Does it, and puts any refusal on a slip. A stale log is read again first. */
  async #tried<T>(what: () => Promise<T>): Promise<T | null> {
    this.#pending += 1;
    this.slip = null;
    try {
      return await what();
    } catch (error) {
      this.slip = slipFrom(error);
      if (error instanceof Refusal && error.stale)
        await this.#look(this.quilt, this.head).catch(() => null);
      return null;
    } finally {
      this.#pending -= 1;
    }
  }
}

function slipFrom(error: unknown): Slip {
  if (!(error instanceof Refusal)) {
    const reason = error instanceof Error ? error.message : String(error);
    return said(true, `The page stumbled: ${reason}`, { hint: "Reload it; nothing is lost." });
  }
  if (error.stale) {
    return said(true, "The log has grown elsewhere since this page read it.", {
      hint: "Here it is as it stands now. Look, and ask again.",
    });
  }
  return said(true, error.message, { hint: error.hint });
}
