// The papers, with the program itself behind the page.

import { expect } from "./mocked";
import { test } from "./program";

test("a paper is made, and saved as PDF", async ({ page, grumbles }) => {
  test.setTimeout(120_000);
  await page.getByRole("button", { name: "Papers", exact: true }).click();
  const sheet = page.getByRole("complementary", { name: "Papers" });
  await expect(sheet.getByRole("heading", { name: "Booklet" })).toBeVisible();
  await sheet.getByRole("radio", { name: "Letter" }).check();
  await sheet.getByRole("button", { name: "Make: The whole piece" }).click();
  const save = sheet.getByRole("link", { name: "Save" });
  await expect(save).toBeVisible({ timeout: 60_000 });
  await expect(save).toHaveAttribute("download", /overview\.pdf$/);
  // A phone shows a PDF where a desk saves it: the file itself is what counts.
  const { begins, length } = await save.evaluate(async (link: HTMLAnchorElement) => {
    const pdf = await (await fetch(link.href)).blob();
    return { begins: await pdf.slice(0, 4).text(), length: pdf.size };
  });
  expect(begins).toBe("%PDF");
  expect(length).toBeGreaterThan(20_000);
  // What was made by another wish is no longer offered.
  await sheet.getByRole("radio", { name: "A4" }).check();
  await expect(save).toBeHidden();
  expect(grumbles).toEqual([]);
});

test("what is asked is told while it is made, and an older answer is dropped", async ({
  page,
  grumbles,
}) => {
  test.setTimeout(120_000);
  await page.getByRole("button", { name: "Papers", exact: true }).click();
  const sheet = page.getByRole("complementary", { name: "Papers" });
  let answer: () => void = () => undefined;
  const held = new Promise<void>((resolve) => (answer = resolve));
  await page.route("**/papers/thread?*", async (route) => {
    await held;
    await route.continue();
  });
  const make = sheet.getByRole("button", { name: "Make: Thread card" });
  await make.click();
  await expect(sheet.getByRole("status").filter({ hasText: "A moment" })).toBeVisible();
  await expect(make).toBeDisabled();
  // The rest stays usable, and another wish makes the answer one that nobody waits for.
  await sheet.getByRole("radio", { name: "Letter" }).check();
  await expect(make).toBeEnabled();
  const late = page.waitForResponse(/papers\/thread/);
  answer();
  await (await late).finished();
  await expect(sheet.getByRole("link", { name: "Save" })).toBeHidden();
  await expect(sheet.getByRole("status").filter({ hasText: /\S/ })).toHaveCount(0);
  expect(grumbles).toEqual([]);
});

test("the maker's own words are kept", async ({ page, grumbles }) => {
  await page.getByRole("button", { name: "Papers", exact: true }).click();
  const sheet = page.getByRole("complementary", { name: "Papers" });
  await sheet.getByRole("textbox", { name: "Maker" }).fill("the sewing circle");
  const kept = page.waitForResponse((answer) => answer.request().method() === "PUT");
  await sheet.getByRole("textbox", { name: "Cover" }).fill("Sand in the middle.");
  await sheet.getByRole("textbox", { name: "Cover" }).blur();
  expect((await kept).ok()).toBe(true);
  await page.reload();
  await page.getByRole("button", { name: "Papers", exact: true }).click();
  await expect(sheet.getByRole("textbox", { name: "Cover" })).toHaveValue("Sand in the middle.");
  await expect(sheet.getByRole("textbox", { name: "Maker" })).toHaveValue("the sewing circle");
  expect(grumbles).toEqual([]);
});
