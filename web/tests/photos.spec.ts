// From a photograph, with the program itself behind the page and pictures rendered for it.

import type { Locator, Page } from "@playwright/test";
import { existsSync } from "node:fs";
import { join } from "node:path";
import { drawn, expect } from "./mocked";
import { test } from "./program";

const FOLDER = process.env["RAGBAG_PHOTOS"] ?? "";
const SCRAPS = join(FOLDER, "small-3.jpg");
const PATCH = join(FOLDER, "patch-3.jpg");
const GROWN = join(FOLDER, "grown-3.jpg");

test.beforeEach(() => {
  test.skip(
    ![SCRAPS, PATCH, GROWN].every((file) => existsSync(file)),
    "RAGBAG_PHOTOS names no folder of photographs; `cargo xtask test` renders them and does",
  );
});

async function sheetOf(page: Page): Promise<Locator> {
  const heap = page.getByRole("button", { name: "Heap", exact: true });
  if (await heap.isVisible()) await heap.click();
  await page.getByRole("button", { name: "From a photograph" }).first().click();
  return page.getByRole("complementary", { name: "From a photograph" });
}

const give = (sheet: Locator, ...files: string[]): Promise<void> =>
  sheet.locator("input[type=file]").first().setInputFiles(files);

/** Gives the rendered scraps and waits until they are found. */
async function scraps(page: Page): Promise<Locator> {
  const sheet = await sheetOf(page);
  await give(sheet, SCRAPS);
  await expect(sheet.locator("svg .found").nth(2)).toBeVisible({ timeout: 60_000 });
  return sheet;
}

test("what is found on a photograph is named, ticked and put in the heap", async ({
  page,
  program,
  grumbles,
}) => {
  const count = async (): Promise<number> => {
    const heap = await page.request.get(`${program}/api/stash`);
    return ((await heap.json()) as { cloths: unknown[] }).cloths.length;
  };
  const before = await count();
  const sheet = await scraps(page);
  const rows = sheet.getByRole("checkbox");
  await expect(rows).toHaveCount(await sheet.locator("svg .found").count());
  for (const row of await rows.all()) await row.uncheck();
  await rows.nth(0).check();
  await rows.nth(2).check();
  await sheet.getByLabel("Name of cloth 1").fill("from the tin");
  await sheet.getByRole("button", { name: "Put 2 cloths in the heap" }).click();
  await expect(page.locator(".slip")).toContainText("from the tin");
  expect(await count()).toBe(before + 2);
  // The same picture is noticed when it comes again.
  await give(sheet, SCRAPS);
  await expect(sheet.locator(".caution").first()).toContainText("read before", { timeout: 60_000 });
  expect(grumbles).toEqual([]);
});

test("an outline is put right by keys, and found again", async ({ page }) => {
  const sheet = await scraps(page);
  await sheet.getByRole("button", { name: "Put its outline right of cloth 1" }).click();
  const corner = sheet.getByRole("button", { name: /^Corner 1 of / });
  const label = await corner.getAttribute("aria-label");
  const told = sheet.locator("li").filter({ has: page.getByLabel("Name of cloth 1") });
  await corner.focus();
  await page.keyboard.press("Shift+ArrowUp");
  await expect(corner).not.toHaveAttribute("aria-label", label ?? "");
  await expect(told).toContainText("put right by you");
  // The tape didn't hear of it.
  const tape = page.getByRole("slider", { name: "The sewing log", includeHidden: true });
  expect(await tape.getAttribute("aria-valuenow")).toBe(await tape.getAttribute("aria-valuemax"));
  await sheet.getByRole("button", { name: "As it was found" }).click();
  await expect(corner).toHaveAttribute("aria-label", label ?? "");

  const corners = sheet.getByRole("button", { name: /^Corner \d+ of / });
  const count = await corners.count();
  await corner.focus();
  await page.keyboard.press("Enter");
  await expect(corners).toHaveCount(count + 1);
  await sheet.getByRole("button", { name: /^Corner 2 of / }).focus();
  await page.keyboard.press("Delete");
  await expect(corners).toHaveCount(count);
});

/** Drags what is seen in the middle of a mark by so many pixels. */
async function drag(page: Page, mark: Locator, across: number, down: number): Promise<void> {
  const box = await mark.boundingBox();
  if (!box) throw new Error("the mark isn't seen");
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + across, y + down, { steps: 5 });
  await page.mouse.up();
}

test("a corner is dragged right after it was moved by keys, though another lies close to it", async ({
  page,
}) => {
  const sheet = await scraps(page);
  await sheet.getByRole("button", { name: "Put its outline right of cloth 1" }).click();
  const told = sheet.locator("li").filter({ has: page.getByLabel("Name of cloth 1") });
  const corner = sheet.getByRole("button", { name: /^Corner 1 of / });
  const before = await corner.getAttribute("aria-label");
  await corner.focus();
  await page.keyboard.press("Shift+ArrowUp");
  const nudged = await corner.getAttribute("aria-label");
  expect(nudged).not.toBe(before);
  // At once: what the keys asked is under way or not even asked yet. On a phone the reach of a corner
  // beside it lies over this one.
  await drag(page, corner.locator(".dot"), 0, -8);
  await expect(corner).not.toHaveAttribute("aria-label", nudged ?? "");
  await expect(told).toContainText("put right by you");
});

test("a cloth of the heap is put right over its picture, and undone", async ({ page, program }) => {
  const sheet = await scraps(page);
  const rows = sheet.getByRole("checkbox");
  for (const row of await rows.all()) await row.uncheck();
  await rows.nth(0).check();
  await sheet.getByLabel("Name of cloth 1").fill("from the tin");
  await sheet.getByRole("button", { name: "Put one cloth in the heap" }).click();
  await expect(page.locator(".slip")).toContainText("from the tin");
  const area = async (): Promise<number> => {
    const heap = (await (await page.request.get(`${program}/api/stash`)).json()) as {
      cloths: { name: string; area_in2: number }[];
    };
    return heap.cloths.find(({ name }) => name === "from the tin")?.area_in2 ?? 0;
  };
  const before = await area();
  await page.keyboard.press("Escape");
  const heap = page.getByRole("button", { name: "Heap", exact: true });
  if (await heap.isVisible()) await heap.click();
  const inHeap = page.getByRole("button", { name: /from the tin/ }).first();
  const right = page.getByRole("button", { name: "Put its outline right of from the tin" });
  // Pictures that come in late move the heap under the hand.
  await expect(async () => {
    if ((await inHeap.getAttribute("aria-pressed")) !== "true") await inHeap.click();
    await right.click({ timeout: 2_000 });
  }).toPass();
  const cloth = page.getByRole("complementary", { name: "from the tin" });
  await expect(cloth.locator("svg image")).toHaveCount(1);
  const corner = cloth.getByRole("button", { name: /^Corner 1 of / });
  const label = await corner.getAttribute("aria-label");
  await drag(page, corner.locator(".dot"), 18, -12);
  await expect(corner).not.toHaveAttribute("aria-label", label ?? "");
  await expect.poll(area).not.toBeCloseTo(before, 3);
  const body = cloth.locator(".body");
  expect(await body.evaluate((one) => one.scrollWidth - one.clientWidth)).toBeLessThanOrEqual(0);
  await page.request.post(`${program}/api/undo`);
  await expect.poll(area).toBeCloseTo(before, 6);
});

test("an outline whose sides cross is refused with what to do, and stays as it was", async ({
  page,
}) => {
  const sheet = await scraps(page);
  await sheet.getByRole("button", { name: "Put its outline right of cloth 1" }).click();
  const corner = sheet.getByRole("button", { name: /^Corner 1 of / });
  const label = await corner.getAttribute("aria-label");
  const opposite = sheet.getByRole("button", { name: /^Corner 3 of / });
  const [from, to] = [await corner.boundingBox(), await opposite.boundingBox()];
  if (!from || !to) throw new Error("the corners aren't seen");
  const middle = (box: {
    x: number;
    y: number;
    width: number;
    height: number;
  }): [number, number] => [box.x + box.width / 2, box.y + box.height / 2];
  const [[x, y], [u, v]] = [middle(from), middle(to)];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 1.5 * (u - x), y + 1.5 * (v - y), { steps: 5 });
  await page.mouse.up();
  await expect(page.getByRole("alert").first()).toContainText("cross");
  await expect(corner).toHaveAttribute("aria-label", label ?? "");
});

test("what is no picture says so, and the others are read all the same", async ({ page }) => {
  const sheet = await sheetOf(page);
  const none = { name: "list.jpg", mimeType: "image/jpeg", buffer: Buffer.from("red, 3 by 5") };
  await sheet.locator("input[type=file]").first().setInputFiles(none);
  await expect(sheet.getByRole("alert")).toContainText("not a picture", { timeout: 30_000 });
  await give(sheet, SCRAPS);
  await expect(sheet.locator("svg .found").nth(2)).toBeVisible({ timeout: 60_000 });
});

test("a card's side that can't be is refused, and one that can is kept", async ({
  page,
  program,
}) => {
  const sheet = await sheetOf(page);
  const side = sheet.getByLabel("Black square of a card");
  await expect(side).toHaveValue("2");
  await side.fill("a bit");
  await side.blur();
  await expect(page.getByRole("alert").first()).toBeVisible();
  await expect(side).toHaveValue("2");
  await side.fill("50.8 mm");
  await side.blur();
  const kept = async (): Promise<number> =>
    ((await (await page.request.get(`${program}/api/cards`)).json()) as { side_in: number })
      .side_in;
  await expect.poll(kept).toBeCloseTo(2, 6);
});

/** A quilt of one patch, 6 by 4 1/2 inches, on the table. */
async function patch(page: Page, program: string): Promise<void> {
  const rust = { kind: "rectangle", name: "rust for a patch", width: "20", height: "20" };
  await page.request.post(`${program}/api/stash`, { data: rust });
  await page.request.post(`${program}/api/quilts`, { data: { name: "Patch" } });
  const heap = (await (await page.request.get(`${program}/api/stash`)).json()) as {
    cloths: { id: string; name: string }[];
  };
  const cloth = heap.cloths.find(({ name }) => name === rust.name)?.id;
  const lay = { head: "main", tip: null, ask: { kind: "lay", cloth, wide: "6", deep: "4 1/2" } };
  await page.request.post(`${program}/api/quilts/Patch/asks`, { data: lay });
  await page.reload();
  await drawn(page);
  await page.getByLabel("Quilt").selectOption("Patch");
}

test("the piece is held against its plan, with the photograph on the drawing, and measured", async ({
  page,
  program,
}) => {
  await patch(page, program);
  const sheet = await sheetOf(page);
  await sheet.getByLabel("The piece on the table").check();
  await give(sheet, PATCH);
  await sheet.getByRole("button", { name: "Hold it against the plan" }).click({ timeout: 60_000 });
  const held = sheet.getByRole("region", { name: "Against the plan" });
  await expect(held).toContainText("shorter");
  await expect(held.locator("tbody tr")).toHaveCount(4);
  await expect(held).toContainText(/square/i);
  await sheet.getByRole("button", { name: "Eye check of the picture" }).click();
  const eye = sheet.getByRole("region", { name: "Eye check of the picture" });
  await expect(eye).toContainText("The outline strays");
  await expect(eye).toContainText("The centre of weight lies");
  await expect(eye).toContainText("From the middle outward");
  const laid = page.locator(".over image");
  await expect(laid).toHaveCount(1);
  await held.getByRole("button", { name: "Take the photograph off the drawing" }).click();
  await expect(laid).toHaveCount(0);
  await held.getByRole("button", { name: "It came out so" }).click();
  await expect(page.locator(".slip")).toContainText("Measured");
  const log = await page.request.get(`${program}/api/quilts/Patch/log`);
  expect(((await log.json()) as { entries: { kind: string }[] }).entries.at(-1)?.kind).toBe(
    "measure",
  );
  // The picture is kept, and shown under the plan as long as it is wished.
  await page.keyboard.press("Escape");
  const kept = page.locator(".drawing image");
  await expect(kept).toHaveCount(0);
  const shown = page.getByRole("button", { name: "Photograph", exact: true });
  await shown.click();
  await expect(kept).toHaveCount(1);
  await shown.click();
  await expect(kept).toHaveCount(0);
});

/** Gives the piece with two more patches sewn on, and waits until they are found. */
async function grown(page: Page, program: string): Promise<Locator> {
  await patch(page, program);
  const sheet = await sheetOf(page);
  await sheet.getByLabel("What was sewn on since").check();
  await give(sheet, GROWN);
  await expect(sheet).toContainText("2 patches are new", { timeout: 60_000 });
  return sheet;
}

const wide = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth);

test("what was sewn on since is seen, said of which cloth, and taken in as sewn", async ({
  page,
  program,
  grumbles,
}) => {
  const sheet = await grown(page, program);
  const first = sheet.getByRole("group", { name: "Of which cloth patch 1 is" });
  await expect(first.getByRole("radio")).toHaveCount(4);
  await expect(first.locator("input:checked")).toHaveCount(1);
  // By keys: the likest, and the next.
  await first.getByRole("radio").nth(0).focus();
  await page.keyboard.press("Space");
  await expect(first.getByRole("radio").nth(0)).toBeChecked();
  await page.keyboard.press("ArrowRight");
  await expect(first.getByRole("radio").nth(1)).toBeChecked();
  // By hand: another cloth of the heap, and one left as it was found.
  await sheet.getByRole("button", { name: "Something else for patch 1" }).click();
  await sheet.getByLabel("Look for a cloth by name").fill("rust for a patch");
  await sheet
    .getByRole("radio", { name: /rust for a patch/ })
    .last()
    .click();
  await expect(first.getByRole("radio", { name: /rust for a patch/ })).toBeChecked();
  const second = sheet.getByRole("group", { name: "Of which cloth patch 2 is" });
  await second.getByText("Leave it as found").click();
  expect(await wide(page)).toBe(page.viewportSize()?.width);
  await sheet.getByRole("button", { name: "Take in 2 patches as sewn" }).click();
  await expect(page.locator(".slip")).toContainText("Caught up: 2 patches");
  const log = (await (await page.request.get(`${program}/api/quilts/Patch/log`)).json()) as {
    tip: string;
    sewn: string;
    entries: { kind: string }[];
  };
  expect(log.sewn).toBe(log.tip);
  expect(log.entries.map(({ kind }) => kind)).toEqual([
    "lay",
    "lay",
    "sew",
    "lay",
    "sew",
    "measure",
  ]);
  await expect(page.locator(".drawing [data-patch]")).toHaveCount(3);
  expect(grumbles).toEqual([]);
});

test("a piece that no patches explain is said to be so, and taken as it was found", async ({
  page,
  program,
}) => {
  await patch(page, program);
  const sheet = await sheetOf(page);
  await sheet.getByLabel("What was sewn on since").check();
  // Heaped scraps are no piece: the largest is another than what is known.
  await give(sheet, SCRAPS);
  await expect(sheet.getByRole("alert")).toContainText("piece", { timeout: 60_000 });
  await sheet.getByRole("button", { name: "Put this picture aside" }).click();
  await give(sheet, GROWN);
  await expect(sheet).toContainText("2 patches are new", { timeout: 60_000 });
  await sheet.getByText("It is sewn another way").click();
  await sheet.getByRole("button", { name: "Take the whole piece as found" }).click();
  await expect(page.locator(".slip")).toContainText("one patch now");
  await expect(page.locator(".drawing [data-patch]")).toHaveCount(1);
});

test("nothing of it is wider than the window", async ({ page }) => {
  const sheet = await scraps(page);
  const body = sheet.locator(".body");
  expect(await body.evaluate((one) => one.scrollWidth - one.clientWidth)).toBeLessThanOrEqual(0);
  expect(await wide(page)).toBe(page.viewportSize()?.width);
});
