// What the page is looking at: which quilt and head, where on the log, which face, what is asked.
//
// All of it comes from the program and can be read again at any time; nothing here is a truth about
// the quilt. Whoever changes it goes through the functions below.

import * as api from "./api/client";
import { Refusal, type Face } from "./api/client";
import type { Answer, Ask, Cloth, EyeMark, Head, Log, Proposal, Quilt, Table } from "./api/types";
import { remembering } from "./drawing/cache";
import { Growing } from "./growing.svelte";
import { layBefore } from "./log/patch";

/** What lies at the edge of the table, if anything. */
export type Paper = "heap" | "next" | "eye" | "what_ifs" | "wish" | "instead" | null;

/** Something the program said that the maker should read. */
export interface Slip {
  /** Whether something went wrong. */
  readonly wrong: boolean;
  readonly message: string;
  readonly hint: string | null;
  readonly remedies: readonly string[];
}

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
  paper = $state<Paper>(null);
  proposals = $state.raw<readonly Proposal[]>([]);
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
  ready = $state(false);

  /** Whether something is being asked, or grown. */
  readonly busy = $derived(this.#pending > 0);

  /** What is growing, if anything. */
  readonly growing = new Growing();

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
  readonly drawingUrl = $derived(
    this.entry ? api.drawingUrl(this.entry.step, this.face, this.lettering, this.log.sewn) : null,
  );
  /** The drawing that the head comes to, on the face that is up. */
  readonly tipDrawingUrl = $derived(
    this.log.tip ? api.drawingUrl(this.log.tip, this.face, this.lettering, this.log.sewn) : null,
  );
  /** The patch that the place on the log is about: the entry that laid it. */
  readonly layHere = $derived(layBefore(this.log.entries, this.at));
  /** The number of steps that are sewn. */
  readonly sewnSteps = $derived(this.log.entries.filter((entry) => entry.sewn).length);

  /** Reads everything anew and stays where the page was, if that is still there. */
  async open(): Promise<void> {
    await this.#tried(async () => {
      this.quilts = (await api.workroom()).quilts;
      const quilt = this.quilts.find((one) => one.name === this.quilt) ?? this.quilts[0];
      const head = quilt?.heads.find((one) => one.name === this.head) ?? quilt?.heads[0];
      if (quilt && head) await this.#look(quilt.name, head.name);
    });
    this.ready = true;
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
      return answer;
    });
  }

  /** Grows, or grows what-ifs, while the page can be looked at; reads anew what came of it. */
  async grow(what: Ask): Promise<Answer | null> {
    if (this.growing.job) return null;
    const { quilt, head } = this;
    return this.#tried(async () => {
      const answer = await this.growing.run(quilt, head, this.log.tip, what);
      // Another quilt or head may lie on the table by now.
      if (quilt === this.quilt && head === this.head) await this.#takeIn(answer, true);
      else this.quilts = (await api.workroom()).quilts;
      return answer;
    });
  }

  /** Stops what is growing; what is there by then is kept. */
  async stop(): Promise<void> {
    await this.growing.stop().catch((error: unknown) => this.stumble(error));
  }

  /** Reads anew what an ask has changed, and tells what it said. */
  async #takeIn(answer: Answer, always = false): Promise<void> {
    if (always || answer.tip !== this.log.tip || answer.version !== this.log.version) {
      this.quilts = (await api.workroom()).quilts;
      if (this.log.tip !== answer.tip) this.at = this.log.entries.length;
      await this.#look(this.quilt, this.head);
    }
    const [problem] = answer.problems ?? [];
    if (problem) {
      this.slip = { wrong: true, message: problem.message, hint: null, remedies: problem.remedies };
    } else if (answer.words) {
      this.slip = { wrong: false, message: answer.words, hint: null, remedies: [] };
    }
  }

  /** Says that the patch the page stands at was cut from another cloth, about so large. */
  async instead(cloth: string, wide: string | null, deep: string | null): Promise<boolean> {
    const lay = this.layHere;
    if (!lay) return false;
    const { at } = this;
    const answer = await this.ask({ kind: "instead", patch: lay.mark, cloth, wide, deep });
    if (answer && !answer.problems) this.goTo(at);
    return answer !== null && !answer.problems;
  }

  /** What is proposed follows another wish from now on. */
  wished(): void {
    this.#putAwayProposals();
  }

  /** Asks for the next piece on a side, or on the best one. */
  async askNext(side: string | null): Promise<void> {
    this.paper = "next";
    this.side = side;
    this.at = this.log.entries.length;
    this.proposals = [];
    const answer = await this.ask({ kind: "next", count: 6, ...(side ? { side } : {}) });
    this.proposals = answer?.proposals ?? [];
  }

  /** Takes a proposal: it is chalk on the log until it is sewn. */
  async take(proposal: Proposal): Promise<void> {
    const side = this.side ? { side: this.side } : {};
    const answer = await this.ask({ kind: "take", proposal: proposal.no, count: 6, ...side });
    if (answer && this.paper === "next") await this.askNext(null);
  }

  /** Waves a proposal away; the log does not hear of it. */
  refuse(proposal: Proposal): void {
    this.proposals = this.proposals.filter((one) => one !== proposal);
  }

  /** Says that everything up to what is shown is sewn. */
  async sewn(): Promise<void> {
    if (this.entry) await this.ask({ kind: "sewn", upto: this.entry.mark });
  }

  /** Takes the last step back. */
  async unpick(): Promise<void> {
    await this.ask({ kind: "unpick" });
  }

  /** Goes to a place on the log. */
  goTo(place: number): void {
    this.at = Math.min(this.log.entries.length, Math.max(0, Math.round(place)));
  }

  /** Brings a paper to the edge of the table, or puts it away if it lies there. */
  show(paper: Exclude<Paper, null>): void {
    if (this.paper === paper) this.putAway();
    else if (paper === "next") void this.askNext(null);
    else this.paper = paper;
  }

  /** Puts the paper away. */
  putAway(): void {
    this.paper = null;
    this.side = null;
    this.eyeRow = null;
  }

  /** Writes names or measures onto the drawing, or wipes them off. */
  letter(what: keyof api.Lettering): void {
    this.lettering = { ...this.lettering, [what]: !this.lettering[what] };
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

  #putAwayProposals(): void {
    this.proposals = [];
    this.side = null;
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
    return {
      wrong: true,
      message: `The page stumbled: ${reason}`,
      hint: "Reload it; nothing is lost.",
      remedies: [],
    };
  }
  if (error.stale) {
    return {
      wrong: true,
      message: "The log has grown elsewhere since this page read it.",
      hint: "Here it is as it stands now. Look, and ask again.",
      remedies: [],
    };
  }
  return { wrong: true, message: error.message, hint: error.hint, remedies: [] };
}
