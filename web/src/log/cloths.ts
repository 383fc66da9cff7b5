// Which cloths a proposal would be cut from.

import type { Proposal } from "../api/types";

/** The ids of its cloths, each once, the first patch's first. */
export const clothsOf = (proposal: Proposal): readonly string[] => [
  ...new Set(proposal.patches.map((patch) => patch.cloth)),
];
