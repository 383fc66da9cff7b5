// A few prints and cloths for the page's own tests: small, made up here, the same every time.

/** A number generator of our own, so that every run is the same. */
export function numbers(seed: number): (least: number, most: number) => number {
  let state = seed >>> 0;
  return (least, most) => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return least + ((most - least) * state) / 2 ** 32;
  };
}

/** Ground and figure of each print, from the middle of the piece outwards. */
export const PRINTS = [
  ["sand", "#d8b98a", "#b98a55", "stripe"],
  ["rust", "#a9512f", "#d98a5f", "dots"],
  ["coral", "#d9745e", "#f3c4ae", "check"],
  ["shell grey", "#cfc4b8", "#a89a8d", "dots"],
  ["mist", "#b9c6c8", "#e4ebea", "stripe"],
  ["slate", "#5b6d78", "#8fa0a8", "check"],
  ["deep green", "#2f4a44", "#5d7f72", "dots"],
] as const;

/** The picture of a print: two inches square. */
export function printPicture(index: number): string {
  const [, ground, figure, kind] = PRINTS[index % PRINTS.length] ?? PRINTS[0];
  const marks: string[] = [];
  for (let i = 0; i < 8; i += 1) {
    if (kind === "stripe") marks.push(`<path d="M0 ${i * 24 + 12}h192" stroke-width="9"/>`);
    if (kind === "check")
      marks.push(`<path d="M${i * 24 + 12} 0v192M0 ${i * 24 + 12}h192" stroke-width="4"/>`);
    if (kind === "dots")
      for (let j = 0; j < 8; j += 1)
        marks.push(
          `<circle cx="${i * 24 + 6 + (j % 2) * 12}" cy="${j * 24 + 12}" r="5" fill="${figure}" stroke="none"/>`,
        );
  }
  return `<svg xmlns="http://www.w3.org/2000/svg" width="192" height="192"><rect width="192" height="192" fill="${ground}"/><g stroke="${figure}">${marks.join("")}</g></svg>`;
}

/** A scrap: its corners in inches, counter-clockwise. */
export function scrap(no: number): [number, number][] {
  const any = numbers(no * 77 + 5);
  const [wide, high] = [any(2, no % 9 === 0 ? 24 : 7), any(1.5, 5)];
  return [
    [0, any(0, 0.5)],
    [wide - any(0, 0.8), 0],
    [wide, high - any(0, 0.6)],
    [any(0, 0.7), high],
  ];
}
