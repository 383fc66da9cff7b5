// Oracles: what was filled in by hand here, and docs/PLAN.md for the names of a plan; no outside source.

import { expect, it } from "vitest";
import type { Cloth } from "../api/types";
import { askOf, shown, stageOf, STAGES, usual, ways } from "./stages";

const names = (kind: Parameters<typeof stageOf>[0], typed: Record<string, string>): string[] =>
  shown(stageOf(kind), { ...usual(stageOf(kind), []), ...typed }).map((field) => field.name);

it("a stage as it usually is says only what must be said, under its name in a plan", () => {
  const plain = (kind: Parameters<typeof stageOf>[0]): unknown =>
    JSON.parse(JSON.stringify(askOf(stageOf(kind), usual(stageOf(kind), []))));
  expect(plain("ring")).toEqual({
    ring: {
      cloth: "strip set",
      slice_in: "1 3/4",
      lean_deg: 0,
      order: "apart_first",
      unpick: false,
    },
  });
  expect(plain("border")).toEqual({
    border: { sewn_in: ["2 1/2"], order: "apart_first", print: "by_grain" },
  });
  expect(plain("square_up")).toEqual({ square_up: { goal: { largest: { kind: "rectangle" } } } });
  expect(plain("layers")).toEqual({ layers: { guiding: "by_hand", backing: { whole: true } } });
});

it("every stage of a plan is offered once", () => {
  const kinds = ["ring", "border", "square_up", "layers"];
  kinds.push("figure", "quilting", "binding", "sleeve");
  expect(STAGES.map((stage) => stage.kind)).toEqual(kinds);
});

it("a field is shown where it means something", () => {
  expect(names("square_up", {})).toEqual(["goal"]);
  expect(names("square_up", { goal: "rectangle" })).toEqual(["goal", "width", "height"]);
  expect(names("square_up", { goal: "rectangle_by_corners" })).toContain("cloth");
  expect(names("quilting", { design: "crossed" })).toContain("angle");
  expect(names("quilting", { design: "echoes" })).not.toContain("angle");
});

it("numbers are read, and what is none is left for the program to refuse", () => {
  const lines = (angle: string): unknown => {
    const stage = stageOf("quilting");
    const ask = askOf(stage, { ...usual(stage, []), design: "crossed", angle }) as {
      quilting: { angle_deg: unknown; crossing_deg: unknown };
    };
    return [ask.quilting.angle_deg, ask.quilting.crossing_deg];
  };
  expect(lines("30")).toEqual([30, 120]);
  expect(lines("22,5")).toEqual([22.5, 112.5]);
  expect(lines("steep")).toEqual(["steep", undefined]);
});

it("ways side by side differ in one field alone, and the program takes no more than eight", () => {
  for (const stage of STAGES) {
    const typed = { ...usual(stage, []), spacing: "1" };
    const all = ways(stage, typed);
    expect(all.length).toBeLessThanOrEqual(8);
    for (const way of all) {
      const differ = Object.keys(typed).filter(
        (name) => way.typed[name] !== typed[name as keyof typeof typed],
      );
      expect(differ.filter((name) => name !== stage.beside)).toEqual([]);
    }
  }
  expect(ways(stageOf("quilting"), usual(stageOf("quilting"), [])).length).toBe(7);
  expect(ways(stageOf("border"), usual(stageOf("border"), [])).length).toBe(4);
  expect(ways(stageOf("sleeve"), usual(stageOf("sleeve"), []))).toEqual([]);
});

it("a border is cut from what has the most left that nothing else counts on", () => {
  const cloth = (no: number, area_in2: number, claimed = 0, kind = "scrap"): Cloth => ({
    id: `${no}`,
    no,
    name: "",
    kind,
    about: false,
    place: null,
    area_in2,
    width_in: 1,
    height_in: 1,
    remaining: 1,
    claimed,
    print: null,
    runs: "any way",
    colours: [],
    picture_url: null,
    svg_url: "",
  });
  const heap = [cloth(1, 40), cloth(2, 100, 0.7), cloth(3, 50), cloth(4, 900, 0, "stripset")];
  expect(usual(stageOf("border"), heap)["cloth"]).toBe("3");
  expect(usual(stageOf("border"), [])["cloth"]).toBe("");
});
