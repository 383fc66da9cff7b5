// What a maker looks at in the demo, with the program itself behind the page.

import { drawn, expect } from "./mocked";
import { test } from "./program";

test("the demo's heap and its piece are shown, front and back, without a grumble", async ({
  page,
  grumbles,
}) => {
  const heap = page.getByRole("button", { name: "Heap" });
  if (await heap.isVisible()) await heap.click();
  await expect(page.locator(".heap li").nth(20)).toBeAttached();
  await expect(page.locator(".heap .shape svg").first()).toBeVisible();
  await page.keyboard.press("Escape");
  const front = await page.locator(".drawing svg").innerHTML();
  await page.getByRole("button", { name: "Turn over" }).click();
  await expect.poll(() => page.locator(".drawing svg").innerHTML()).not.toBe(front);
  expect(grumbles).toEqual([]);
});

test("every step of the demo's log can be stood on", async ({ page, grumbles }) => {
  const tape = page.getByRole("slider", { name: "The sewing log" });
  const last = Number(await tape.getAttribute("aria-valuemax"));
  expect(last).toBeGreaterThan(20);
  await page.keyboard.press("Home");
  for (let place = 1; place <= last; place += 1) {
    await page.keyboard.press("ArrowRight");
    await expect(tape).toHaveAttribute("aria-valuenow", String(place));
  }
  await drawn(page);
  expect(grumbles).toEqual([]);
});

test("a next piece is proposed, taken as chalk, sewn, and unpicked", async ({ page }) => {
  const tape = page.getByRole("slider", { name: "The sewing log" });
  const before = Number(await tape.getAttribute("aria-valuemax"));
  await page.getByRole("button", { name: "Next piece" }).click();
  const sheet = page.getByRole("complementary", { name: "Next piece" });
  await expect(sheet.locator(".proposals > li").first()).toBeVisible({ timeout: 30_000 });
  await sheet.getByRole("button", { name: "Take it" }).first().click();
  // On a phone the sheet lies over the tape.
  await sheet.getByRole("button", { name: "Put it away" }).click();
  await expect
    .poll(async () => Number(await tape.getAttribute("aria-valuemax")), { timeout: 30_000 })
    .toBeGreaterThan(before);
  const sentence = page.locator(".sentence");
  await expect(sentence).toContainText("chalk");
  await page.getByRole("button", { name: "Sewn" }).click();
  await expect(sentence).toContainText("sewn");
  await page.getByRole("button", { name: "Unpick", exact: true }).click();
  // It is sewn, so it asks first.
  await page.getByRole("button", { name: "Unpick it" }).click();
  await expect
    .poll(async () => Number(await tape.getAttribute("aria-valuemax")))
    .toBeLessThanOrEqual(before);
});

test("the eye check of the demo has rows, and each has its grade and sentence", async ({
  page,
}) => {
  await page.getByRole("button", { name: "Eye check" }).click();
  const rows = page.locator(".row");
  await expect(rows.nth(10)).toBeAttached();
  for (const row of await rows.all()) {
    await expect(row.locator(".words")).not.toBeEmpty();
    await expect(row.locator(".grade")).toContainText(/good|fair|poor/);
  }
  await rows.first().click();
  await expect(page.locator(".over .mark").first()).toBeAttached();
});
