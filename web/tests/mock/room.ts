// A workroom in memory that answers as the program does, for what is hard to bring about with the
// real one: refusals, a stale tip, an empty room.

import type {
  Answer,
  Ask,
  Bend,
  Cloth,
  Entry,
  Eye,
  Job,
  Log,
  Proposal,
  Scrap,
  Stash,
  Table,
  Workroom,
} from "../../src/api/types";
import { grown, type MockState } from "./piece";
import { PRINTS, scrap } from "./prints";
import { MockWish } from "./wish";

const MOST = 90;
const HEAD = "main";

/** What a test can set before the page asks. */
export interface Setup {
  readonly pieces: number;
  readonly sewn: number;
}

/** The mock's state: a piece of which `pieces` are on the log, and `sewn` of those sewn. */
export class MockRoom {
  readonly states: readonly MockState[] = grown(MOST, 7);
  pieces: number;
  sewn: number;
  version = 1;
  /** Answers the next asks with this instead. */
  refuse: { status: number; message: string; hint: string } | null = null;
  heads: string[] = [HEAD];
  quilts: string[] = ["Low Tide"];
  /** How many cloths lie in the heap. */
  scraps = 64;
  /** Scraps that were told of. */
  readonly entered: Scrap[] = [];
  /** Bends that were asked for. */
  readonly bends: Bend[] = [];
  /** Numbers of proposals that were waved away. */
  refused: number[] = [];
  /** Whether nothing is found to propose. */
  barren = false;
  #before: { pieces: number; sewn: number }[] = [];
  #unpicked: number[] = [];
  readonly wish = new MockWish();
  /** What was told to have been used instead. */
  instead: (Ask & { kind: "instead" })[] = [];
  readonly #jobs: { job: Job; ask: Ask; tip: string | null }[] = [];

  constructor(setup: Setup) {
    this.pieces = setup.pieces;
    this.sewn = setup.sewn;
  }

  workroom(): Workroom {
    const head = (name: string) => ({
      name,
      tip: this.tip(),
      sewn: this.sewn > 0 ? this.#step(this.sewn * 2 - 2) : null,
      steps: this.entries().length,
      version: this.version,
    });
    const quilts = this.quilts.map((name) => ({ name, heads: this.heads.map(head) }));
    return { name: "mock", quilts, undo: this.#before.length > 0 ? "what was planned last" : null };
  }

  /** Puts a scrap in; null when its words have no size. */
  enter(scrap: Scrap): { cloths: string[]; words: string } | null {
    if (scrap.kind === "words" && !/\d/.test(scrap.words)) return null;
    this.entered.push(scrap);
    this.scraps += 1;
    return {
      cloths: [`c${this.scraps - 1}`],
      words: `In the heap: No. ${this.scraps} red stripe.`,
    };
  }

  beginQuilt(name: string): { quilt: string; head: string } {
    this.quilts.push(name);
    return { quilt: name, head: HEAD };
  }

  /** Takes the last change of the log back; null when there is none. */
  undo(): { words: string } | null {
    const before = this.#before.pop();
    if (!before) return null;
    this.pieces = before.pieces;
    this.sewn = before.sewn;
    this.version += 1;
    return { words: "Undone: what was planned last." };
  }

  tip(): string | null {
    return this.pieces > 0 ? this.#step(this.pieces * 2 - 2) : null;
  }

  log(): Log {
    return {
      tip: this.tip(),
      sewn: this.sewn > 0 ? this.#step(this.sewn * 2 - 2) : null,
      version: this.version,
      entries: this.entries(),
    };
  }

  /** One lay for the first patch; a lay and a sew for every other. */
  entries(): Entry[] {
    return Array.from({ length: Math.max(0, this.pieces * 2 - 1) }, (_, i) => {
      const piece = Math.ceil(i / 2);
      const lay = i === 0 || i % 2 === 1;
      const name = this.#clothName(piece);
      return {
        step: this.#step(i),
        mark: i + 1,
        kind: lay ? "lay" : "sew",
        run: {
          first: i === 0 ? 1 : 2 * piece,
          kind: i === 0 ? "start" : "piece",
          name: i === 0 ? "First patch" : "Piece",
        },
        sentence: lay
          ? `Lay the ${name}, cut 3 1/8 by ${piece % 3} 1/4.`
          : `Sew the ${name} onto side ${piece - 1}a, with a 1/4 seam, and press it over.`,
        sewn: piece < this.sewn,
        patches: lay ? [`${piece}a`] : [],
        photo: null,
      };
    });
  }

  cloths(): Stash {
    return { cloths: Array.from({ length: this.scraps }, (_, i) => this.#cloth(i)) };
  }

  /** The state a step shows, and how many of its patches are sewn. */
  at(step: string): MockState | null {
    const index = Number.parseInt(step.slice(0, 8), 16);
    return this.states[Math.ceil((index - (index % 2 === 1 ? 1 : 0)) / 2)] ?? null;
  }

  table(step: string): Table {
    const state = this.at(step);
    const patches = (state?.patches ?? []).map((patch, i) => ({
      name: patch.name,
      cloth: `c${i % 64}`,
      cloth_name: this.#clothName(i),
      cut_in: [3.125, 1.25 + (i % 4) / 4],
      finished_area_in2: 2.2 + i / 10,
      held_by: patch.seam ? patch.name : null,
    }));
    return {
      tops: [
        {
          mark: 1,
          patches,
          sides: (state?.sides ?? []).map((name) => ({ name, length_in: 5.375, sewable: true })),
          seams: patches.map((patch, i) => ({
            name: patch.name,
            length_in: 4.5,
            press: "over",
            order: i,
          })),
          width_in: 20,
          height_in: 19.5,
          thickest: { layers: 5, x_in: 0, y_in: 0 },
        },
      ],
    };
  }

  eye(): Eye {
    const rows = [
      ["round", "Round", 0.044, "The outline stays within 1/4 of round, with 6 sides.", "good"],
      ["first", "The first patch stays in the middle", 0.05, "It lies 3/8 off the middle.", "good"],
      ["ahead", "No side runs ahead", 0.17, "Side 14a is a round ahead of the others.", "fair"],
      ["log_cabin", "No log-cabin", 2.85, "Seams run round and round in long lines.", "poor"],
      ["bars", "No bars", 0.12, "Most shapes are chunky.", "good"],
      ["wedges", "Wedges, not strips", 0.71, "Seven in ten shapes are wedges.", "good"],
      ["balance", "Balance", 0.034, "Evenly weighted.", "good"],
      ["drift", "Drift, with sparks", 0.83, "From rust to deep green, with 5 sparks.", "good"],
    ] as const;
    const corners = this.states[Math.max(0, this.pieces - 1)]?.corners ?? [];
    return {
      rows: rows.map(([key, quality, number, words, grade], i) => ({
        key,
        quality,
        number: number.toFixed(2),
        words,
        grade,
        marks: [
          i % 3 === 0
            ? { kind: "area" as const, points: corners.map(([x, y]) => [x * 0.6, y * 0.6]) }
            : i % 3 === 1
              ? { kind: "point" as const, points: [[0.4, 0.3]] }
              : { kind: "line" as const, points: corners.slice(0, 2).map(([x, y]) => [x, y]) },
        ],
      })),
      gates_passed: false,
      total_cost: 0.31,
    };
  }

  proposals(side: string | null | undefined): Proposal[] {
    const sides = this.states[Math.max(0, this.pieces - 1)]?.sides ?? [];
    return Array.from({ length: 4 }, (_, i) => ({
      no: i + 1,
      cloth: `c${(this.pieces + i * 7) % 64}`,
      cloth_name: this.#clothName(this.pieces + i * 7),
      side: side ?? sides[i % sides.length] ?? "",
      asked: side ?? sides[i % sides.length] ?? "",
      cut_words: "",
      patches: [
        {
          no: i + 1,
          cloth: `c${(this.pieces + i * 7) % 64}`,
          cloth_name: this.#clothName(this.pieces + i * 7),
          size: `2 wide and ${i + 4} 1/2 long, finished`,
          cuts: [
            `Lay the ruler from 2 1/4 along edge A to 1 3/8 along edge B; cut ${i + 4} 1/2.`,
            "Lay the ruler from 3 along edge B to 1 along edge C; cut 2 5/8.",
          ],
          cut_svg_url: `/api/stash/c${(this.pieces + i * 7) % 64}.svg`,
        },
      ],
      lay_words: "Lay it right sides together, 1/8 past the corner nearest the window.",
      score: 0.9 - i / 20,
      terms: [
        { name: "shape", words: "a wedge, 1 3/4 deep", value: 0.34 },
        { name: "look", words: "one step cooler than its neighbours", value: 0.28 - i / 30 },
        { name: "fit", words: "leaves 3 by 2 in one part", value: 0.11 },
      ],
      preview_svg_url: `/api/at/${this.#step(2 * this.pieces - 2)}/offers/${i + 1}.svg`,
    })).filter((one) => !this.barren && !this.refused.includes(one.no));
  }

  /** Null when the tip is stale. */
  ask(tip: string | null, ask: Ask): Answer | null {
    if (tip !== this.tip()) return null;
    const now = { pieces: this.pieces, sewn: this.sewn };
    const changed = this.#decide(ask);
    if (changed) {
      this.version += 1;
      this.#before.push(now);
    }
    const asking = ["next", "refuse", "forget_refusals"].includes(ask.kind);
    const proposals = asking ? this.proposals("side" in ask ? ask.side : null) : null;
    const none = proposals?.length === 0 ? "Of the 64 cloths in the heap none has room." : null;
    const words = ask.kind === "instead" ? "Noted; 3 later steps hold." : none;
    return { tip: this.tip(), version: this.version, proposals, problems: null, words };
  }

  /** A job that comes a few pieces further each time it is looked at. Null when the tip is stale. */
  begin(tip: string | null, ask: Ask): Job | null {
    if (tip !== this.tip()) return null;
    const about =
      ask.kind === "grow" ? ask.pieces : ask.kind === "what_ifs" ? ask.count * ask.pieces : 0;
    const job: Job = {
      job: this.#jobs.length + 1,
      quilt: this.quilts[0] ?? "",
      head: HEAD,
      pieces: 0,
      about,
      stopping: false,
      ended: false,
      answer: null,
      error: null,
      status: null,
    };
    this.#jobs.push({ job, ask, tip });
    return job;
  }

  /** Every job, as it was looked at last. */
  jobs(): Job[] {
    return this.#jobs.map((one) => one.job);
  }

  /** The job as it is now. */
  job(number: number): Job | null {
    const known = this.#jobs[number - 1];
    if (!known) return null;
    const { job, ask, tip } = known;
    if (job.ended) return job;
    const pieces = job.stopping ? job.pieces : Math.min(job.about, job.pieces + 4);
    if (!job.stopping && pieces < job.about) {
      known.job = { ...job, pieces };
      return known.job;
    }
    const done = ask.kind === "grow" ? { ...ask, pieces } : ask;
    const answer = this.ask(tip, done);
    const words = `${job.stopping ? "Stopped with" : "Grown to"} ${this.pieces} pieces.`;
    known.job = {
      ...job,
      pieces,
      ended: true,
      answer: answer && { ...answer, words },
      error: answer ? null : { message: "The log has moved.", hint: null },
      status: answer ? null : 409,
    };
    return known.job;
  }

  /** Asks a job to stop. */
  stop(number: number): Job | null {
    const known = this.#jobs[number - 1];
    if (!known) return null;
    known.job = { ...known.job, stopping: true };
    return known.job;
  }

  #decide(ask: Ask): boolean {
    switch (ask.kind) {
      case "next":
        if (ask.bend) this.bends.push(ask.bend);
        return false;
      case "refuse":
        this.refused.push(ask.proposal);
        return false;
      case "forget_refusals":
        this.refused = [];
        return false;
      case "resew":
        this.pieces = this.#unpicked.pop() ?? this.pieces;
        return true;
      case "lay":
        this.pieces = 1;
        return true;
      case "instead":
        this.instead.push(ask);
        return true;
      case "take":
        this.pieces += 1;
        return true;
      case "grow":
        this.pieces += ask.pieces;
        return true;
      case "what_ifs":
        this.heads = [HEAD, ...Array.from({ length: ask.count }, (_, i) => `what-if ${i + 1}`)];
        return true;
      case "sewn":
        this.sewn = Math.ceil(((ask.upto ?? this.entries().length) + 1) / 2);
        return true;
      case "unpick":
        this.#unpicked.push(this.pieces);
        this.pieces = Math.max(0, this.pieces - 1);
        this.sewn = Math.min(this.sewn, this.pieces);
        return true;
    }
  }

  #step(index: number): string {
    return index.toString(16).padStart(8, "0").padEnd(64, "5");
  }

  #clothName(i: number): string {
    const [name, , , kind] = PRINTS[this.#print(i)] ?? PRINTS[0];
    return `${name} ${kind}`;
  }

  #print(i: number): number {
    return this.states[MOST - 1]?.patches[i]?.print ?? i % PRINTS.length;
  }

  #cloth(i: number): Cloth {
    const corners = scrap(i + 1);
    const [xs, ys] = [corners.map(([x]) => x), corners.map(([, y]) => y)];
    const [wide, high] = [Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)];
    const [name, ground, figure, kind] = PRINTS[(i + 1) % PRINTS.length] ?? PRINTS[0];
    return {
      id: `c${i}`,
      no: i + 1,
      name: `${name} ${kind}`,
      kind: "scrap",
      about: i % 5 === 0,
      place: ["blue tin", "basket", "window box", null][i % 4] ?? null,
      area_in2: wide * high * 0.9,
      width_in: wide,
      height_in: high,
      remaining: i % 17 === 16 ? 0 : 1,
      claimed: i < this.pieces ? 0.4 : 0,
      print: `${name} ${kind}`,
      runs: "any",
      colours: [
        { hex: ground, share: 0.7 },
        { hex: figure, share: 0.3 },
      ],
      picture_url: `/pictures/${(i + 1) % PRINTS.length}`,
      svg_url: `/api/stash/c${i}.svg`,
    };
  }
}
