// The mock workroom's wish: three measures, and the one refusal that the page's tests need.

import type { Measure, Wish, WishChange } from "../../src/api/types";

const measure = (
  name: string,
  label: string,
  unit: Measure["unit"],
  value: number,
  [least, most]: readonly [number, number],
): Measure => ({ name, label, words: "What it does.", unit, least, most, value });

/** A wish that is kept as it is asked for. */
export class MockWish {
  #wish: Wish = {
    outline: { kind: "round", sides: 7, width_in: null, height_in: null },
    measures: [
      measure("across", "Finished width across", "inches", 20, [2, 240]),
      measure("piece_centre", "Finished width of a piece at the centre", "inches", 1.3, [0.25, 24]),
      measure("piece_rim", "Finished width of a piece at the rim", "inches", 3.75, [0.25, 24]),
      measure("sparks", "Sparks", "percent", 6, [0, 100]),
      measure("rest", "Rest of a print", "inches", 4, [0, 60]),
      measure("round", "Round", "weight", 1, [0, 100]),
    ],
    spiral: "none",
    upright: true,
    drift: [
      { at: 0, hex: "#d8b98a" },
      { at: 1, hex: "#2f4a44" },
    ],
    spare: [],
    use_up: [],
  };

  /** Every change that was asked for. */
  readonly asked: WishChange[] = [];

  read(): Wish {
    return this.#wish;
  }

  /** The wish after a change, or why it can't be. */
  change(change: WishChange): Wish | string {
    this.asked.push(change);
    const across = Number(change.measures?.["across"] ?? 20);
    if (across > 240) return "Finished width across: 500 inches does not lie between 2 and 240";
    const measures = this.#wish.measures.map((one) => {
      const text = change.measures?.[one.name];
      return text === undefined ? one : { ...one, value: Number.parseFloat(text) };
    });
    const drift = change.drift?.map((hex, i, all) => ({ at: i / (all.length - 1), hex }));
    this.#wish = { ...this.#wish, measures, drift: drift ?? this.#wish.drift };
    return this.#wish;
  }
}
