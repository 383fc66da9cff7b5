// Which cloths of the heap answer to what was typed. Every word has to be found somewhere.

import type { Cloth } from "../api/types";

/**
 * The cloths of which every typed word is part of the name, kind, print, place or number. A single
 * letter, or a number after `#`, has to be a word of its own: `sails c` is not `sails a`.
 */
export function found(cloths: readonly Cloth[], typed: string): readonly Cloth[] {
  const words = plain(typed).split(/\s+/).filter(Boolean);
  if (words.length === 0) return cloths;
  return cloths.filter((cloth) => {
    const text = plain(
      [`#${cloth.no}`, cloth.name, cloth.kind, cloth.print, cloth.place, cloth.runs].join(" "),
    );
    const own = text.split(/\s+/);
    return words.every((word) =>
      word.length === 1 || word.startsWith("#") ? own.includes(word) : text.includes(word),
    );
  });
}

/** Lower case, without accents, so that what is typed on any keyboard is found. */
function plain(text: string): string {
  return text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();
}
