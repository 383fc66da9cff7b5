// Finds the fractions in a sentence, so that the page can set them as fractions.
//
// `2 1/4`, `2-1/4` and `1/8` are fractions; a date, a ratio of long numbers or a path is not. The
// sentence is cut into runs whose texts, put together again, are the sentence.

/** A run of a sentence: words, or a fraction with its whole number before it. */
export type Run =
  | { readonly kind: "words"; readonly text: string }
  | {
      readonly kind: "fraction";
      readonly text: string;
      readonly whole: string;
      readonly over: string;
      readonly under: string;
    };

const FRACTION = /(?<![\d/.\w])(?:(\d{1,4})[ -])?(\d{1,2})\/(\d{1,2})(?![\d/\w]|\.\d)/g;

/** The runs of a sentence. */
export function runs(sentence: string): Run[] {
  const found: Run[] = [];
  let from = 0;
  for (const match of sentence.matchAll(FRACTION)) {
    const [text, whole = "", over = "", under = ""] = match;
    if (Number(under) === 0) continue;
    if (match.index > from) found.push({ kind: "words", text: sentence.slice(from, match.index) });
    found.push({ kind: "fraction", text, whole, over, under });
    from = match.index + text.length;
  }
  if (from < sentence.length) found.push({ kind: "words", text: sentence.slice(from) });
  return found;
}
