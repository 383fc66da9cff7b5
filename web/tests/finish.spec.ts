// From the centre to the last stitch, with the program itself behind the page.

import type { Locator, Page } from "@playwright/test";
import { expect } from "./mocked";
import { test } from "./program";

const sheetOf = (page: Page): Locator => page.getByRole("complementary");

async function stage(page: Page, name: string): Promise<Locator> {
  await page.getByRole("button", { name: "Finish", exact: true }).click();
  const sheet = sheetOf(page);
  await sheet.getByRole("button", { name }).first().click();
  await expect(sheet.getByRole("heading", { name, exact: true })).toBeFocused();
  return sheet;
}

const steps = async (page: Page): Promise<number> => {
  const tape = page.getByRole("slider", { name: "The sewing log", includeHidden: true });
  return Number(await tape.getAttribute("aria-valuemax"));
};

/** What is drawn of the piece: its elements and lines, without ids, which are new each time. */
const drawing = (page: Page): Promise<string> =>
  page
    .locator(".drawing svg")
    .first()
    .evaluate((svg) =>
      [...svg.querySelectorAll("*")]
        .map((one) => [one.localName, one.getAttribute("class"), one.getAttribute("d")].join(" "))
        .join("\n"),
    );

test("every stage can be looked at as it usually is, front and back, and nothing changes", async ({
  page,
  grumbles,
}) => {
  test.setTimeout(180_000);
  const before = await steps(page);
  const plain = await drawing(page);
  await page.getByRole("button", { name: "Finish", exact: true }).click();
  const sheet = sheetOf(page);
  for (const name of ["Ring", "Border", "Squaring up", "Figure", "Quilting", "Binding"]) {
    await sheet.getByRole("button", { name }).first().click();
    await sheet.getByRole("button", { name: "Look", exact: true }).click();
    const told = sheet.getByRole("region", { name: "What it comes to" });
    await expect(told.getByRole("button", { name: "Take it" })).toBeVisible({ timeout: 30_000 });
    await expect.poll(() => drawing(page)).not.toBe(plain);
    const front = await drawing(page);
    await told.getByRole("button", { name: "See the back" }).click();
    await expect.poll(() => drawing(page)).not.toBe(front);
    await told.getByRole("button", { name: "See the front" }).click();
    await sheet.getByRole("button", { name: "Another stage" }).click();
    // The look is taken off the piece again.
    await expect.poll(() => drawing(page), { timeout: 10_000 }).toBe(plain);
  }
  expect(await steps(page)).toBe(before);
  expect(grumbles).toEqual([]);
});

test("a border is taken as chalk, stands by its name on the tape, and is unpicked whole", async ({
  page,
}) => {
  const before = await steps(page);
  const sheet = await stage(page, "Border");
  await sheet.getByLabel("Sewn, to the raw edge").fill("2");
  await sheet.getByRole("button", { name: "Look", exact: true }).click();
  await sheet.getByRole("button", { name: "Take it" }).click();
  await expect.poll(() => steps(page), { timeout: 30_000 }).toBeGreaterThan(before);
  await expect(page.locator(".slip")).toContainText("Border");
  await sheet.getByRole("button", { name: "Put it away" }).click();
  await expect(page.locator(".sentence")).toContainText("Border:");
  await expect(page.locator(".tape .stage")).toContainText("Border");
  const tape = page.getByRole("slider", { name: "The sewing log" });
  await expect(tape).toHaveAttribute("aria-valuetext", /Border: /);
  await page.getByRole("button", { name: "Unpick", exact: true }).click();
  await expect.poll(() => steps(page)).toBe(before);
});

test("quilting designs stand side by side, and the one that is pressed lies on the piece", async ({
  page,
}) => {
  const sheet = await stage(page, "Quilting");
  await sheet.getByLabel("Rows apart").fill("1");
  await sheet.getByLabel("Thread", { exact: true }).fill("navy");
  await sheet.getByRole("button", { name: "7 ways side by side" }).click();
  const ways = sheet.locator("li");
  await expect(ways).toHaveCount(7, { timeout: 30_000 });
  await expect(sheet.locator("li svg")).not.toHaveCount(0);
  const plain = await drawing(page);
  await sheet.getByRole("button", { name: "crossed lines" }).click();
  await expect.poll(() => drawing(page)).not.toBe(plain);
  await expect(sheet.getByLabel("Lines", { exact: true })).toHaveValue("crossed");
  await expect(sheet.getByRole("region", { name: "What it comes to" })).toContainText("stitches");
});

test("border orders stand side by side, and what can't be says why in its place", async ({
  page,
}) => {
  const sheet = await stage(page, "Border");
  await sheet.getByLabel("Sewn, to the raw edge").fill("2");
  await sheet.getByRole("button", { name: "4 ways side by side" }).click();
  await expect(sheet.locator("li")).toHaveCount(4, { timeout: 30_000 });
  await sheet.getByLabel("Sewn, to the raw edge").fill("40");
  await sheet.getByRole("button", { name: "4 ways side by side" }).click();
  await expect(sheet.locator("li .refused")).toHaveCount(4, { timeout: 30_000 });
  await expect(sheet.locator("li .refused").first()).toContainText("wide");
});

test("what makes no sense is refused on a slip with what to do", async ({ page }) => {
  const sheet = await stage(page, "Ring");
  await sheet.getByLabel("Slices cut").fill("a bit");
  await sheet.getByRole("button", { name: "Look", exact: true }).click();
  await expect(page.getByRole("alert")).toContainText("slice_in");
  await sheet.getByLabel("Slices cut").fill("1 3/4");
  await sheet.getByRole("button", { name: "Look", exact: true }).click();
  await expect(sheet.getByRole("button", { name: "Take it" })).toBeVisible({ timeout: 30_000 });
  await expect(page.getByRole("alert")).toHaveCount(0);
});

test("a drawing of one's own becomes a figure, and one that is none is refused", async ({
  page,
}) => {
  const sheet = await stage(page, "Figure");
  const leaf = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><path d="M1 1H9V9H1Z"/></svg>`;
  const file = (name: string, text: string) => ({
    name,
    mimeType: "image/svg+xml",
    buffer: Buffer.from(text),
  });
  await sheet.locator("input[type=file]").setInputFiles(file("leaf.svg", leaf));
  await sheet.getByRole("button", { name: "Look", exact: true }).click();
  const told = sheet.getByRole("region", { name: "What it comes to" });
  await expect(told).toContainText("1 patch", { timeout: 30_000 });
  await sheet.locator("input[type=file]").setInputFiles(file("none.svg", "no drawing"));
  await sheet.getByRole("button", { name: "Look", exact: true }).click();
  await expect(told.getByRole("alert")).toContainText("none.svg");
});

test("enough is told stage by stage, with what to buy", async ({ page }) => {
  await page.getByRole("button", { name: "Finish", exact: true }).click();
  const sheet = sheetOf(page);
  await sheet.getByRole("button", { name: "Is there enough?" }).click();
  const enough = sheet.getByRole("region", { name: "Is there enough?" });
  await expect(enough).toContainText("Centre", { timeout: 30_000 });
  await expect(enough).toContainText("To buy");
  await enough.getByRole("button", { name: "Back to the stages" }).click();
  await expect(sheet.getByRole("button", { name: "Sleeve and label" })).toBeVisible();
});

test("nothing of the finishing is wider than the window", async ({ page }) => {
  await page.getByRole("button", { name: "Finish", exact: true }).click();
  const sheet = sheetOf(page);
  const fits = async (): Promise<void> => {
    const body = sheet.locator(".body");
    expect(await body.evaluate((one) => one.scrollWidth - one.clientWidth)).toBeLessThanOrEqual(0);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(
      page.viewportSize()?.width,
    );
  };
  for (const name of ["Ring", "Layers", "Figure", "Quilting", "Sleeve and label"]) {
    await sheet.getByRole("button", { name }).first().click();
    await fits();
    await sheet.getByRole("button", { name: "Another stage" }).click();
  }
});
