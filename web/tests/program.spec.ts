// The page with the program itself behind it, serving its demo from a fresh workroom.

import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { drawn, expect, test as base } from "./mocked";

const PROGRAM = process.env["RAGBAG"];
const LISTENING = /listening on (http:\/\/\S+)/;

/** Starts the program; the address it says it listens on, and how to end it. */
async function start(workroom: string): Promise<{ address: string; end: () => void }> {
  const child = spawn(PROGRAM ?? "ragbag", [
    "--workroom",
    workroom,
    "serve",
    "--demo",
    "--port",
    "0",
  ]);
  const said: string[] = [];
  const address = await new Promise<string>((found, failed) => {
    for (const stream of [child.stdout, child.stderr]) {
      createInterface({ input: stream }).on("line", (line) => {
        said.push(line);
        const match = LISTENING.exec(line);
        if (match?.[1]) found(match[1].replace(/\/$/, ""));
      });
    }
    child.on("error", failed);
    child.on("exit", (code) => {
      failed(new Error(`the program ended with ${code}:\n${said.join("\n")}`));
    });
  });
  return { address, end: () => child.kill() };
}

const test = base.extend<{ program: string }>({
  program: async ({ pieces }, use) => {
    void pieces;
    const workroom = mkdtempSync(join(tmpdir(), "ragbag-page-"));
    const { address, end } = await start(workroom);
    await use(address);
    end();
    rmSync(workroom, { recursive: true, force: true });
  },
});

test.skip(!PROGRAM, "RAGBAG names no program; `cargo xtask test` builds it and does");

test.beforeEach(async ({ page, program, grumbles }) => {
  test.setTimeout(180_000);
  void grumbles;
  await page.goto(program);
  await drawn(page);
});

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
  await expect(sheet.locator("li").first()).toBeVisible({ timeout: 30_000 });
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
  await page.getByRole("button", { name: "Unpick" }).click();
  await expect
    .poll(async () => Number(await tape.getAttribute("aria-valuemax")))
    .toBeLessThanOrEqual(before);
});

test("the eye check of the demo has rows, and each has its number and sentence", async ({
  page,
}) => {
  await page.getByRole("button", { name: "Eye check" }).click();
  const rows = page.locator(".row");
  await expect(rows.nth(10)).toBeAttached();
  for (const row of await rows.all()) {
    await expect(row.locator(".words")).not.toBeEmpty();
    await expect(row.locator(".number")).not.toBeEmpty();
  }
  await rows.first().click();
  await expect(page.locator(".over .mark").first()).toBeAttached();
});
