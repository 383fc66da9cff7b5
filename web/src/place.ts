// Which quilt and which of its what-ifs lies on the table, kept in the page's address, so that it is
// found again when the page is opened anew.

/** A quilt and one of its heads. */
export interface Place {
  readonly quilt: string;
  readonly head: string;
}

/** The place that an address names after its `#`; empty words where it names none. */
export function placeIn(hash: string): Place {
  const named = new URLSearchParams(hash.replace(/^#/, ""));
  return { quilt: named.get("quilt") ?? "", head: named.get("head") ?? "" };
}

/** What stands after the `#` of an address that names the place. */
export function hashOf(place: Place): string {
  return `#${new URLSearchParams({ quilt: place.quilt, head: place.head }).toString()}`;
}
