// Counted things in words.

/** So many of something: `one cloth`, `3 cloths`; `several` where more than one is called otherwise. */
export const many = (count: number, what: string, several = `${what}s`): string =>
  count === 1 ? `one ${what}` : `${count === 0 ? "no" : count} ${several}`;
