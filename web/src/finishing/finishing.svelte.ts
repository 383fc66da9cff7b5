// What is looked at after the centre: which stage, what is filled in, what came of the last look. All of
// it is the program's; a look changes nothing until it is taken.

import * as api from "../api/client";
import type { Face, From, Lettering } from "../api/client";
import type { Cloth, Enough, Looks, Seen, Told } from "../api/types";
import { askOf, stageOf, usual, ways, type Stage, type StageKind, type Typed } from "./stages";

/** How often a look that takes longer is asked for again, in milliseconds. */
const PAUSE = 250;

/** A drawing that the maker has chosen for a figure. */
export interface OwnDrawing {
  readonly name: string;
  readonly text: string;
}

/** A look with the fields that it was asked with. */
export interface Looked {
  readonly word: string;
  readonly typed: Typed;
  readonly seen: Seen;
}

/** The stages after the centre, as the page looks at them. */
export class Finishing {
  stage = $state.raw<Stage | null>(null);
  typed = $state.raw<Typed>({});
  drawing = $state.raw<OwnDrawing | null>(null);
  /** What came of the last look: one, or several side by side. */
  looks = $state.raw<readonly Looked[]>([]);
  /** The one that lies on the table, of those. */
  laid = $state.raw<Looked | null>(null);
  enough = $state.raw<Enough | null>(null);
  looking = $state(false);
  #filled: Partial<Record<StageKind, Typed>> = {};
  #asked = 0;

  /** What the look that lies on the table says. */
  readonly told: Told | null = $derived(this.laid?.seen.told ?? null);

  /** Where the drawing of the look that lies on the table is, if one does. */
  drawingUrl(face: Face, lettering: Lettering): string | null {
    if (!this.told) return null;
    const { labels, measures } = lettering;
    const url = face === "front" ? this.told.front_svg_url : this.told.back_svg_url;
    return `${url}?labels=${labels}&measures=${measures}&asked=${this.#asked}`;
  }

  /** Where the small drawing of a look is. */
  smallUrl(told: Told, face: Face): string {
    const url = face === "front" ? told.front_svg_url : told.back_svg_url;
    return `${url}?asked=${this.#asked}`;
  }

  /** Chooses a stage, filled in as it was left, or as is usual. */
  choose(kind: StageKind, heap: readonly Cloth[]): void {
    this.forget();
    this.stage = stageOf(kind);
    this.typed = this.#filled[kind] ?? usual(this.stage, heap);
  }

  /** Back to the list of stages. */
  leave(): void {
    this.forget();
    this.stage = null;
  }

  /** Fills in a field; what was seen is no longer what would be taken. */
  fill(name: string, text: string): void {
    this.typed = { ...this.typed, [name]: text };
    if (this.stage) this.#filled[this.stage.kind] = this.typed;
    this.laid = null;
    this.looks = [];
  }

  /** Takes the look off the table. */
  forget(): void {
    this.looks = [];
    this.laid = null;
    this.enough = null;
  }

  /** Lays one of several on the table, and fills in what it was asked with. */
  lay(one: Looked): void {
    this.typed = one.typed;
    if (this.stage) this.#filled[this.stage.kind] = one.typed;
    this.laid = one;
  }

  /** Looks at the stage as it is filled in, or at its ways side by side. */
  async look(from: From, beside = false): Promise<void> {
    const stage = this.stage;
    if (!stage) return;
    const asked = beside ? ways(stage, this.typed) : [{ word: stage.name, typed: this.typed }];
    const stages = asked.map((way) => askOf(stage, way.typed));
    this.looking = true;
    try {
      let looks: Looks = await api.look(from, stages, this.ownSvg);
      while (!looks.ended) {
        await new Promise((again) => setTimeout(again, PAUSE));
        looks = await api.see(looks.look);
      }
      if (!looks.seen) {
        throw new api.Refusal(looks.error?.message ?? "It ended without a reason.", null, 0);
      }
      if (this.stage !== stage) return;
      this.#asked += 1;
      this.looks = asked.flatMap((way, i) => {
        const seen = looks.seen?.[i];
        return seen ? [{ ...way, seen }] : [];
      });
      this.laid = beside ? null : (this.looks[0] ?? null);
    } finally {
      this.looking = false;
    }
  }

  /** The drawing that goes along with the figure, where it isn't the program's own. */
  get ownSvg(): string | null {
    return this.stage?.kind === "figure" && this.typed["svg"] === this.drawing?.name
      ? (this.drawing?.text ?? null)
      : null;
  }

  /** What is asked to take the look on the table. */
  asked(): Readonly<Record<string, unknown>> | null {
    return this.stage && this.laid ? askOf(this.stage, this.laid.typed) : null;
  }
}
