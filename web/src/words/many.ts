// Counted things in words.

/** So many of something: `one cloth`, `3 cloths`. */
export const many = (count: number, what: string): string =>
  count === 1 ? `one ${what}` : `${count === 0 ? "no" : count} ${what}s`;
