// What a maker changes in the demo, with the program itself behind the page: growing as a job, what
// was used instead, the wish.

import type { Page } from "@playwright/test";
import type { Answer, Log, Table } from "../src/api/types";
import { drawn, expect } from "./mocked";
import { test } from "./program";

const tape = (page: Page) => page.getByRole("slider", { name: "The sewing log" });
const steps = async (page: Page): Promise<number> =>
  Number(await tape(page).getAttribute("aria-valuemax"));
const bar = (page: Page) => page.getByRole("progressbar", { name: "Growing" });

/** Unpicks so many runs: the demo has grown as far as it goes. */
async function unpick(page: Page, runs: number): Promise<void> {
  const quilt = `${new URL(page.url()).origin}/api/quilts/Low%20Tide`;
  let { tip } = (await (await page.request.get(`${quilt}/log`)).json()) as Log;
  for (let i = 0; i < runs; i += 1) {
    const data = { head: "main", tip, ask: { kind: "unpick" } };
    ({ tip } = (await (await page.request.post(`${quilt}/asks`, { data })).json()) as Answer);
  }
  await page.reload();
  await drawn(page);
}

/** Begins to grow from the sheet of the next piece. */
async function grow(page: Page, pieces: number): Promise<void> {
  await page.getByRole("button", { name: "Next piece" }).click();
  const sheet = page.getByRole("complementary", { name: "Next piece" });
  await expect(sheet.locator(".proposals > li").first()).toBeVisible({ timeout: 30_000 });
  await sheet.getByLabel(/Let it grow by/).fill(String(pieces));
  await sheet.getByRole("button", { name: "Grow", exact: true }).click();
}

/** Presses Stop as soon as a piece has grown: the heap is used up within seconds, and then it would end
 *  by itself. */
const stopOnceItGrows = (page: Page): Promise<void> =>
  page.evaluate(() => {
    const watch = new MutationObserver(() => {
      const bar = document.querySelector(".growth [role=progressbar]");
      if (!(Number(bar?.getAttribute("aria-valuenow")) > 0)) return;
      watch.disconnect();
      document.querySelector<HTMLElement>(".growth button")?.click();
    });
    watch.observe(document.body, { subtree: true, childList: true, attributes: true });
  });

/** Puts the sheet away: on a phone it lies over the tape and the tools. */
const putAway = (page: Page): Promise<void> =>
  page.getByRole("button", { name: "Put it away" }).click();

test("growing goes on while the page is looked at, and ends with what it came to", async ({
  page,
  grumbles,
}) => {
  await unpick(page, 12);
  const before = await steps(page);
  await grow(page, 3);
  await expect(bar(page)).toBeVisible();
  await putAway(page);
  await page.getByRole("button", { name: "Turn over" }).click();
  await expect(page.getByRole("img", { name: /The piece, back/ })).toBeVisible();
  await expect(bar(page)).toHaveCount(0, { timeout: 60_000 });
  await expect(page.getByText(/with \d+ pieces|to \d+ pieces/)).toBeVisible();
  await expect.poll(() => steps(page)).toBeGreaterThan(before);
  expect(grumbles).toEqual([]);
});

test("growing is stopped, and a sound piece is kept", async ({ page }) => {
  await unpick(page, 20);
  const before = await steps(page);
  await stopOnceItGrows(page);
  await grow(page, 200);
  await putAway(page);
  // With a reason after it, it would have ended by itself.
  const told = page.getByText(/^Stopped with \d+ pieces\.$/);
  await expect(told).toBeVisible({ timeout: 60_000 });
  const pieces = Number(/\d+/.exec((await told.textContent()) ?? "")?.[0]);
  await expect(bar(page)).toHaveCount(0);
  await expect.poll(() => steps(page)).toBeGreaterThan(before);
  // Sound: one top lies on the table, of as many patches as were told, and every one is drawn. Whether
  // more goes on depends on how much of the heap was used by then.
  const { origin } = new URL(page.url());
  const log = await page.request.get(`${origin}/api/quilts/Low%20Tide/log`);
  const { tip } = (await log.json()) as Log;
  const table = await page.request.get(`${origin}/api/at/${tip ?? ""}/table`);
  const { tops } = (await table.json()) as Table;
  expect(tops.map((top) => top.patches.length)).toEqual([pieces]);
  await expect(page.locator(".drawing [data-patch]")).toHaveCount(pieces);
  // What comes next is proposed, or the page says why nothing is.
  await page.getByRole("button", { name: "Next piece" }).click();
  const sheet = page.getByRole("complementary", { name: "Next piece" });
  const next = sheet
    .locator(".proposals > li")
    .or(sheet.getByText(/^Nothing is proposed here\. \S/));
  await expect(next.first()).toBeVisible({ timeout: 30_000 });
});

test("what-ifs grow as a job, and lie beside each other", async ({ page }) => {
  await unpick(page, 12);
  await page.getByRole("button", { name: "What-ifs" }).click();
  const sheet = page.getByRole("complementary", { name: "What-ifs" });
  const before = await sheet.locator("li").count();
  await sheet.getByLabel("Ways").fill("2");
  await sheet.getByLabel("Pieces each").fill("2");
  await sheet.getByRole("button", { name: "Grow them" }).click();
  await expect(bar(page)).toBeVisible();
  await expect(sheet.locator("li")).toHaveCount(before + 2, { timeout: 60_000 });
});

test("another cloth was used: the step says so, and the log stays where it was", async ({
  page,
}) => {
  const sentence = page.locator(".sentence");
  await page.keyboard.press("End");
  const place = await tape(page).getAttribute("aria-valuenow");
  await page.getByRole("button", { name: /something else|Other cloth/ }).click();
  const sheet = page.getByRole("complementary", { name: "Something else" });
  await expect(sheet).toContainText("Instead of");
  const cloths = sheet.getByRole("radio");
  await cloths.nth(6).click();
  const name = await cloths.nth(6).locator(".name").textContent();
  const deep = sheet.getByLabel(/deep/);
  await deep.fill("nonsense");
  await sheet.getByRole("button", { name: "I used this one" }).click();
  await expect(page.getByRole("alert")).toContainText("nonsense");
  // The heap has no cloth so deep: it asks, and takes the maker's word.
  await deep.fill("30");
  await sheet.getByRole("button", { name: "I used this one" }).click();
  await page.getByRole("button", { name: "It was so" }).click();
  await expect(sheet).toHaveCount(0, { timeout: 30_000 });
  await expect(page.getByText(/^Noted/)).toBeVisible();
  // The last patch is laid by one of the last steps.
  await expect
    .poll(async () => {
      for (let back = 0; back < 6; back += 1) {
        if ((await sentence.textContent())?.includes(name ?? "?")) return true;
        await page.keyboard.press("ArrowLeft");
      }
      return false;
    })
    .toBe(true);
  expect(Number(place)).toBeGreaterThan(0);
});

test("the wish is read, refused, changed and kept", async ({ page }) => {
  await page.getByRole("button", { name: "Wish" }).click();
  const sheet = page.getByRole("complementary", { name: "The wish" });
  const across = sheet.getByLabel("Finished width across");
  await expect(across).toHaveValue("20");
  await across.fill("2 1/0");
  const keep = sheet.getByRole("button", { name: "Keep this wish" });
  await keep.click();
  await expect(sheet.getByRole("alert")).toContainText("Finished width across");
  await across.fill("56 cm");
  await sheet.getByRole("checkbox", { name: /Colours drift/ }).uncheck();
  await sheet.getByLabel("Rest of a print").fill("3 1/2");
  await sheet.getByLabel("Sides").selectOption("6");
  await keep.click();
  await expect(sheet.getByRole("status")).toContainText("Kept");
  // It is the program's now: it is there when the page is opened anew.
  await page.reload();
  await page.getByRole("button", { name: "Wish" }).click();
  await expect(sheet.getByLabel("Rest of a print")).toHaveValue("3 1/2");
  await expect(sheet.getByLabel("Sides")).toHaveValue("6");
  await expect(sheet.getByRole("checkbox", { name: /Colours drift/ })).not.toBeChecked();
  await expect(across).toHaveValue(/^22/);
});
