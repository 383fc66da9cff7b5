import { expect, it } from "vitest";
import { keyDeed, type Key } from "./keys";

const press = (key: string, more: Partial<Key> & { on?: string } = {}): Key => ({
  key,
  shiftKey: false,
  ctrlKey: false,
  metaKey: false,
  altKey: false,
  target: more.on ? ({ localName: more.on } as unknown as EventTarget) : null,
  ...more,
});

it("arrows move along the log, and with Shift they move the piece", () => {
  expect(keyDeed(press("ArrowRight"))).toBe("on");
  expect(keyDeed(press("ArrowRight", { shiftKey: true }))).toBe("right");
});

it("a key that writes or that belongs to the browser is left alone", () => {
  expect(keyDeed(press("t", { on: "input" }))).toBeNull();
  expect(keyDeed(press("ArrowLeft", { on: "select" }))).toBeNull();
  expect(keyDeed(press("0", { ctrlKey: true }))).toBeNull();
  expect(keyDeed(press(" ", { on: "button" }))).toBeNull();
  expect(keyDeed(press("q"))).toBeNull();
});

it("Escape puts papers away from anywhere", () => {
  expect(keyDeed(press("Escape", { on: "input" }))).toBe("away");
});
