// Lengths as makers write them: whole inches and a fraction, to the eighth unless more is asked.
//
// This only writes numbers that the program computed; it adds up nothing.

/** A number in words: what stands before the fraction, and the fraction if there is one. */
export interface Mixed {
  readonly minus: boolean;
  readonly whole: number;
  readonly over: number;
  readonly under: number;
}

/** The nearest mixed number with a denominator that divides `parts`. Not for infinite numbers. */
export function mixed(value: number, parts: number): Mixed {
  const steps = Math.round(Math.abs(value) * parts);
  const over = steps % parts;
  const shared = common(over, parts);
  return {
    minus: value < 0 && steps > 0,
    whole: Math.floor(steps / parts),
    over: over / shared,
    under: parts / shared,
  };
}

/** A length in inches as plain text: `2 1/4`, `3/8`, `12`. Not a number: `?`. */
export function inches(value: number, parts = 8): string {
  if (!Number.isFinite(value)) return "?";
  const { minus, whole, over, under } = mixed(value, parts);
  const sign = minus ? "-" : "";
  if (over === 0) return `${sign}${whole}`;
  return whole === 0 ? `${sign}${over}/${under}` : `${sign}${whole} ${over}/${under}`;
}

/** A width and a height: `3 x 4 1/2`, with a real times sign. */
export function byInches(wide: number, high: number, parts = 8): string {
  return `${inches(wide, parts)} × ${inches(high, parts)}`;
}

function common(a: number, b: number): number {
  return b === 0 ? a : common(b, a % b);
}
