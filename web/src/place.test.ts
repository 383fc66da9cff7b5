// Oracle: what goes in comes out again; no outside source.

import { expect, it } from "vitest";
import { hashOf, placeIn } from "./place";

it("a place is found again in the address, whatever the quilt is called", () => {
  for (const quilt of ["Low Tide", "a&b=c#d", "Ébauche ½", ""])
    for (const head of ["main", "what-if-2", "main~before"])
      expect(placeIn(hashOf({ quilt, head }))).toEqual({ quilt, head });
});

it("an address without a place names none", () => {
  expect(placeIn("")).toEqual({ quilt: "", head: "" });
  expect(placeIn("#elsewhere")).toEqual({ quilt: "", head: "" });
});
