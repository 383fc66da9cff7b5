// What a maker does on the page, against the mock workroom. Both widths run all of it.

import type { Page } from "@playwright/test";
import { drawn, expect, test } from "./mocked";

const tape = (page: Page) => page.getByRole("slider", { name: "The sewing log" });
const place = async (page: Page): Promise<number> =>
  Number(await tape(page).getAttribute("aria-valuenow"));
const patches = (page: Page) => page.locator(".drawing [data-patch]");

async function openHeap(page: Page): Promise<void> {
  const heap = page.getByRole("button", { name: "Heap" });
  if (await heap.isVisible()) await heap.click();
}

test.beforeEach(async ({ page, address, grumbles, pieces }) => {
  void grumbles;
  await page.goto(address);
  if (pieces > 0) await drawn(page);
});

test("nothing grumbles, nothing sticks out, and words in a drawing cannot run", async ({
  page,
  grumbles,
}) => {
  await openHeap(page);
  await expect(page.locator(".heap .shape svg").first()).toBeVisible();
  expect(grumbles).toEqual([]);
  await expect(page).toHaveTitle("Ragbag");
  expect(await page.locator(".shape script").count()).toBe(0);
  const [wide, window] = await page.evaluate(() => [document.body.scrollWidth, innerWidth]);
  expect(wide).toBeLessThanOrEqual(window ?? 0);
  const nameless = await page.evaluate(
    () => [...document.querySelectorAll("button")].filter((one) => !one.textContent?.trim()).length,
  );
  expect(nameless).toBe(0);
});

test("typed words narrow the heap to the cloths that answer to them", async ({ page, mock }) => {
  await openHeap(page);
  const names = page.locator(".heap .name");
  await expect(names).toHaveCount(mock.cloths().cloths.length);
  await page.getByRole("searchbox").fill("rust tin");
  const expected = mock
    .cloths()
    .cloths.filter((cloth) => cloth.name.includes("rust") && cloth.place?.includes("tin"));
  expect(expected.length).toBeGreaterThan(0);
  await expect(names).toHaveCount(expected.length);
});

test("a cloth picked out of the heap is shown in the piece", async ({ page }) => {
  await openHeap(page);
  await page.locator(".heap li button").nth(3).click();
  const shown = page.locator(".over path.cloth.in").first();
  await expect(shown).toBeAttached();
  // Nothing stays picked out once something else is looked at.
  await page.keyboard.press("Escape");
  await page.mouse.move(0, 0);
  await expect(shown).toHaveCount(0);
});

test("the tape can be pulled, tapped, stepped and run", async ({ page, mock }) => {
  const last = mock.entries().length;
  expect(await place(page)).toBe(last);
  const all = await patches(page).count();
  const box = await tape(page).boundingBox();
  if (!box) throw new Error("the tape has no place on the page");
  const [x, y] = [box.x + box.width * 0.5, box.y + 70];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 130, y, { steps: 8 });
  await page.mouse.up();
  expect(await place(page)).toBe(last - 5);
  await expect(patches(page)).not.toHaveCount(all);
  await page.mouse.click(box.x + box.width * 0.7 - 2 * 26, y);
  await expect.poll(() => place(page)).toBe(last - 7);
  await page.keyboard.press("ArrowRight");
  expect(await place(page)).toBe(last - 6);
  await page.getByRole("button", { name: "Run" }).click();
  await expect.poll(() => place(page)).toBe(last);
  await expect(page.getByRole("button", { name: "Run" })).toBeVisible();
  await expect(patches(page)).toHaveCount(all);
});

test("a patch that is sewn on swings open about its seam and then lies still", async ({ page }) => {
  const all = await patches(page).count();
  await page.keyboard.press("ArrowLeft");
  await expect(patches(page)).toHaveCount(all - 1);
  const swinging = page.locator(".drawing [data-patch][transform^='matrix']");
  await page.keyboard.press("ArrowRight");
  await expect(swinging).toHaveCount(1);
  await expect(swinging).toHaveCount(0);
  await expect(page.locator(".drawing [style*='hidden']")).toHaveCount(0);
});

test("before the first step the table is empty", async ({ page }) => {
  await page.keyboard.press("Home");
  await expect(patches(page)).toHaveCount(0);
  await expect(page.getByText("pull the tape")).toBeVisible();
  await page.keyboard.press("End");
  await drawn(page);
});

test("turned over twice the piece lies as before", async ({ page }) => {
  const where = () => page.locator(".sheet").first().getAttribute("style");
  await page.waitForTimeout(300);
  const before = await where();
  const front = await page.locator(".drawing svg").innerHTML();
  await page.getByRole("button", { name: "Turn over" }).click();
  await expect.poll(() => page.locator(".drawing svg").innerHTML()).not.toBe(front);
  await expect(page.getByRole("img", { name: /The piece, back/ })).toBeVisible();
  await page.getByRole("button", { name: "Turn back" }).click();
  await expect(page.getByRole("img", { name: /The piece, front/ })).toBeVisible();
  await expect.poll(where).toBe(before);
});

test("the wheel zooms about the pointer, and a drag moves the piece with the hand", async ({
  page,
}) => {
  const patch = patches(page).first();
  const start = await patch.boundingBox();
  if (!start) throw new Error("the first patch has no place");
  // Whole pixels, as a pointer has them.
  const [x, y] = [Math.round(start.x + start.width / 2), Math.round(start.y + start.height / 2)];
  await page.mouse.move(x, y);
  await page.mouse.wheel(0, -400);
  const near = await patch.boundingBox();
  const nearer = (near?.width ?? 0) / start.width;
  expect(nearer).toBeGreaterThan(1.5);
  expect(near?.x).toBeCloseTo(x - (x - start.x) * nearer, 0);
  expect(near?.y).toBeCloseTo(y - (y - start.y) * nearer, 0);
  await page.mouse.down();
  await page.mouse.move(x + 60, y - 30, { steps: 6 });
  await page.mouse.up();
  const after = await patch.boundingBox();
  expect((after?.x ?? 0) - (near?.x ?? 0)).toBeCloseTo(60, 0);
  expect((after?.y ?? 0) - (near?.y ?? 0)).toBeCloseTo(-30, 0);
  await page.keyboard.press("0");
  await expect.poll(async () => (await patch.boundingBox())?.width).toBeCloseTo(start.width, 0);
});

test("two fingers pinch the piece larger", async ({ page }, info) => {
  test.skip(info.project.name !== "phone", "a desk has no fingers");
  const patch = patches(page).first();
  const start = await patch.boundingBox();
  const session = await page.context().newCDPSession(page);
  const fingers = (type: "touchStart" | "touchMove" | "touchEnd", apart: number) =>
    session.send("Input.dispatchTouchEvent", {
      type,
      touchPoints:
        type === "touchEnd"
          ? []
          : [
              { x: 195 - apart, y: 300, id: 0 },
              { x: 195 + apart, y: 300, id: 1 },
            ],
    });
  await fingers("touchStart", 40);
  for (let apart = 40; apart <= 120; apart += 10) await fingers("touchMove", apart);
  await fingers("touchEnd", 0);
  const after = await patch.boundingBox();
  expect((after?.width ?? 0) / (start?.width ?? 1)).toBeCloseTo(3, 1);
});

test("a patch that is pointed at says what it is", async ({ page, mock }, info) => {
  const at = await patches(page).first().boundingBox();
  if (!at) throw new Error("the first patch has no place");
  const [x, y] = [at.x + at.width / 2, at.y + at.height / 2];
  if (info.project.name === "phone") await page.touchscreen.tap(x, y);
  else await page.mouse.move(x, y);
  const tag = page.locator(".tag");
  const named = await tag.locator("span").first().textContent();
  const patch = mock
    .table(mock.tip() ?? "")
    .tops[0]?.patches.find((one) => named === `patch ${one.name}`);
  expect(patch).toBeDefined();
  await expect(tag).toContainText(patch?.cloth_name ?? "?");
  await expect(tag).toContainText("square inches finished");
  await expect(page.locator(".over path.hand.patch")).toHaveCount(1);
});

test("an outer side that is pressed asks for its next piece, and taking it adds chalk", async ({
  page,
  mock,
}) => {
  const side = page.locator(".over [data-side]").first();
  const name = await side.getAttribute("data-side");
  const middle = await side.evaluate((line: SVGPathElement) => {
    const at = line.getPointAtLength(line.getTotalLength() / 2);
    const screen = at.matrixTransform(line.getScreenCTM() ?? undefined);
    return [screen.x, screen.y] as const;
  });
  await page.mouse.click(...middle);
  const sheet = page.getByRole("complementary", { name: "Next piece" });
  await expect(sheet).toContainText(`on side ${name}, raw`);
  const proposals = sheet.locator(".proposals > li");
  await expect(proposals).toHaveCount(4);
  // A patch has its cuts under it, each on a line of its own.
  await expect(proposals.first().locator(".cuts > li")).toHaveCount(2);
  await expect(proposals.first().getByRole("img", { name: /How to cut/ })).toBeVisible();
  const before = mock.entries().length;
  await sheet.getByRole("button", { name: "Not this one" }).first().click();
  await expect(proposals).toHaveCount(3);
  await expect(sheet.getByRole("status")).toContainText("Not proposed again");
  expect(mock.refused).toEqual([1]);
  expect(mock.entries().length).toBe(before);
  await sheet.getByRole("button", { name: "Propose all again" }).click();
  await expect(proposals).toHaveCount(4);
  await sheet.getByRole("button", { name: "Why?" }).first().click();
  await expect(sheet.locator("dl")).toContainText("leaves 3 by 2 in one part");
  await sheet.getByRole("button", { name: "Take it" }).first().click();
  await expect.poll(() => mock.entries().length).toBe(before + 2);
  await sheet.getByRole("button", { name: "Put it away" }).click();
  await expect.poll(() => place(page)).toBe(before + 2);
  await expect(page.locator(".sentence")).toContainText("chalk");
});

test("the eye check shows the faults first and where they are", async ({ page, mock }) => {
  await page.getByRole("button", { name: "Eye check" }).click();
  const rows = page.locator(".row");
  await expect(rows).toHaveCount(mock.eye().rows.length);
  await expect(rows.first()).toContainText("No log-cabin");
  await expect(rows.first()).toContainText("poor");
  await expect(page.locator(".over .mark")).toHaveCount(0);
  await rows.first().click();
  await expect(page.locator(".over .mark").first()).toBeAttached();
  await page.keyboard.press("Escape");
  await expect(page.locator(".over .mark")).toHaveCount(0);
});

test("growing tells how far it is, can be stopped, and keeps what has grown", async ({
  page,
  mock,
}) => {
  await page.getByRole("button", { name: "Next piece" }).click();
  const sheet = page.getByRole("complementary", { name: "Next piece" });
  await sheet.getByLabel(/Let it grow by/).fill("40");
  const before = mock.pieces;
  await sheet.getByRole("button", { name: "Grow", exact: true }).click();
  const bar = page.getByRole("progressbar", { name: "Growing" });
  await expect(bar).toHaveAttribute("aria-valuemax", "40");
  await expect.poll(async () => Number(await bar.getAttribute("aria-valuenow"))).toBeGreaterThan(4);
  // The page can be looked at meanwhile.
  await sheet.getByRole("button", { name: "Put it away" }).click();
  await page.getByRole("button", { name: "Turn over" }).click();
  await expect(page.getByRole("img", { name: /The piece, back/ })).toBeVisible();
  await page.getByRole("button", { name: "Stop", exact: true }).click();
  await expect(bar).toHaveCount(0);
  await expect(page.getByText(/Stopped with \d+ pieces/)).toBeVisible();
  expect(mock.pieces).toBeGreaterThan(before);
  expect(mock.pieces).toBeLessThan(before + 40);
});

test("a log that went on while it grew is told, and nothing is lost", async ({ page, mock }) => {
  await page.getByRole("button", { name: "Next piece" }).click();
  const sheet = page.getByRole("complementary", { name: "Next piece" });
  await sheet.getByLabel(/Let it grow by/).fill("40");
  await sheet.getByRole("button", { name: "Grow", exact: true }).click();
  await expect(page.getByRole("progressbar", { name: "Growing" })).toBeVisible();
  mock.pieces += 1;
  mock.version += 1;
  await page.getByRole("button", { name: "Stop", exact: true }).click();
  await expect(page.getByRole("alert")).toContainText("grown elsewhere");
});

test("what was used instead is told by cloth and depth", async ({ page, mock }) => {
  const button = page.getByRole("button", { name: /something else|Other cloth/ });
  await button.click();
  const sheet = page.getByRole("complementary", { name: "Something else" });
  await expect(sheet).toContainText("patch 29a");
  const used = sheet.getByRole("button", { name: "I used this one" });
  await expect(used).toBeDisabled();
  await sheet.getByRole("searchbox").fill("slate");
  await sheet.getByRole("radio").first().click();
  const deep = sheet.getByLabel(/deep/);
  await deep.fill("2 3/4");
  await used.click();
  await expect(sheet).toHaveCount(0);
  await expect(page.getByText("3 later steps hold")).toBeVisible();
  const [told] = mock.instead;
  expect(told).toMatchObject({ patch: mock.entries().at(-2)?.mark, wide: null, deep: "2 3/4" });
  expect(mock.cloths().cloths.find((one) => one.id === told?.cloth)?.name).toContain("slate");
});

test("the wish is changed in makers' words, and a refusal says what is wrong", async ({
  page,
  mock,
}) => {
  await page.getByRole("button", { name: "Wish" }).click();
  const sheet = page.getByRole("complementary", { name: "The wish" });
  const across = sheet.getByLabel("Finished width across");
  await expect(across).toHaveValue("20");
  await expect(sheet.getByLabel("Finished width of a piece at the rim")).toHaveValue("3 3/4");
  await expect(sheet).toContainText("2 to 240 inches");
  await across.fill("500");
  const keep = sheet.getByRole("button", { name: "Keep this wish" });
  await keep.click();
  await expect(sheet.getByRole("alert")).toContainText("Finished width across");
  await expect(across).toHaveValue("500");
  await across.fill("24");
  await sheet.getByRole("checkbox", { name: /Colours drift/ }).uncheck();
  await expect(sheet.getByLabel("Sparks")).toHaveCount(0);
  await keep.click();
  await expect(sheet.getByRole("status")).toContainText("Kept");
  expect(mock.wish.asked.at(-1)).toEqual({ measures: { across: "24" }, drift: [] });
});

test("what-ifs lie side by side, and one can be laid on the table", async ({ page }) => {
  await page.getByRole("button", { name: "What-ifs" }).click();
  await page.getByRole("button", { name: "Grow them" }).click();
  const sheet = page.getByRole("complementary", { name: "What-ifs" });
  await expect(sheet.locator("li")).toHaveCount(4);
  await sheet.getByRole("button", { name: /what-if 2/ }).click();
  await expect(sheet.locator("li.here")).toContainText("what-if 2");
});

test("a proposal that is pointed at lies on the piece as a ghost", async ({ page }, info) => {
  await page.getByRole("button", { name: "Next piece" }).click();
  const second = page.locator(".proposals > li").nth(1);
  const look = second.getByRole("button", { name: "Show it on the piece" });
  if (info.project.name === "phone") await look.tap();
  else await second.hover();
  const ghost = page.locator(".ghost");
  await expect(ghost.locator("g.proposal path")).toHaveCount(1);
  await expect(ghost.locator("g.patches")).toHaveCount(0);
  await page.getByRole("button", { name: "Put it away" }).click();
  await expect(ghost).toHaveCount(0);
});

test("a proposal is bent, and what it was bent to is said", async ({ page, mock }) => {
  await page.getByRole("button", { name: "Next piece" }).click();
  const sheet = page.getByRole("complementary", { name: "Next piece" });
  await sheet.getByRole("button", { name: "Bend it" }).first().click();
  const show = sheet.getByRole("button", { name: "Show it bent" });
  await show.click();
  await expect(sheet.getByRole("alert")).toContainText("at least one");
  await sheet.getByLabel("Finished depth").fill("2 1/2");
  await sheet.getByLabel(/tilted/).fill("-5");
  await sheet.getByLabel("With this cloth").selectOption({ index: 3 });
  await show.click();
  await expect(sheet).toContainText(/Bent: 2\s*1.2 deep, finished, tilted by -5°, with/);
  expect(mock.bends).toEqual([{ depth: "2 1/2", tilt: -5, cloth: "c2" }]);
  await sheet.getByRole("button", { name: "As it comes" }).click();
  await expect(sheet).not.toContainText("Bent:");
});

test("why nothing is proposed is said, and a program that is gone is not blamed on the heap", async ({
  page,
  mock,
}) => {
  mock.barren = true;
  await page.getByRole("button", { name: "Next piece" }).click();
  const sheet = page.getByRole("complementary", { name: "Next piece" });
  await expect(sheet).toContainText("none has room");
  await sheet.getByRole("button", { name: "Put it away" }).click();
  await page.route("**/api/**", (route) => route.abort());
  await page.getByRole("button", { name: "Next piece" }).click();
  await expect(page.getByRole("alert")).toContainText("does not answer");
  await expect(sheet).toContainText("Nothing was answered");
  await expect(sheet).not.toContainText("Nothing is proposed");
});

test("a field for a count that is empty says what it wants", async ({ page, mock }) => {
  await page.getByRole("button", { name: "Next piece" }).click();
  const sheet = page.getByRole("complementary", { name: "Next piece" });
  await sheet.getByLabel(/Let it grow by/).fill("");
  await sheet.getByRole("button", { name: "Grow", exact: true }).click();
  await expect(sheet.getByRole("alert")).toContainText("a whole number from 1 to 300");
  expect(mock.jobs()).toEqual([]);
});

test("growing is found again when the page is opened anew, and so is the what-if", async ({
  page,
}) => {
  await page.getByRole("button", { name: "What-ifs" }).click();
  await page.getByRole("button", { name: "Grow them" }).click();
  const sheet = page.getByRole("complementary", { name: "What-ifs" });
  await sheet.getByRole("button", { name: /what-if 2/ }).click();
  await expect(sheet.locator("li.here")).toContainText("what-if 2");
  await page.reload();
  await drawn(page);
  await page.getByRole("button", { name: "What-ifs" }).click();
  await expect(sheet.locator("li.here")).toContainText("what-if 2");
  await sheet.getByRole("button", { name: /main/ }).click();
  await sheet.getByRole("button", { name: "Put it away" }).click();
  await page.getByRole("button", { name: "Next piece" }).click();
  await page.getByLabel(/Let it grow by/).fill("50");
  await page.getByRole("button", { name: "Grow", exact: true }).click();
  const bar = page.getByRole("progressbar", { name: "Growing" });
  await expect(bar).toBeVisible();
  await page.reload();
  await expect(bar).toBeVisible();
  await page.getByRole("button", { name: "Stop", exact: true }).click();
  await expect(page.getByText(/Stopped with \d+ pieces/)).toBeVisible();
});

test("unpicking what is sewn asks first, and can be sewn again or undone", async ({
  page,
  mock,
}) => {
  mock.sewn = mock.pieces;
  await page.reload();
  await drawn(page);
  const all = mock.entries().length;
  const unpick = page.getByRole("button", { name: "Unpick", exact: true });
  await unpick.click();
  await expect(page.getByText("This is sewn. Unpick it?")).toBeVisible();
  await page.getByRole("button", { name: "Leave it" }).click();
  expect(mock.entries().length).toBe(all);
  await unpick.click();
  await page.getByRole("button", { name: "Unpick it" }).click();
  await expect.poll(() => mock.entries().length).toBe(all - 2);
  await page.getByRole("button", { name: "Sew it again" }).click();
  await expect.poll(() => mock.entries().length).toBe(all);
  await page.getByRole("button", { name: "Undo" }).click();
  await expect(page.getByText("Undone: what was planned last.")).toBeVisible();
  await expect.poll(() => mock.entries().length).toBe(all - 2);
  await page.getByRole("button", { name: "Sew again" }).isVisible();
});

test("no tool lies over another at a small desk", async ({ page }, info) => {
  test.skip(info.project.name !== "desk", "a phone shows a sheet below");
  await page.setViewportSize({ width: 1024, height: 700 });
  for (const paper of ["What-ifs", "Next piece", "Eye check"]) {
    await page.getByRole("button", { name: paper, exact: true }).click();
    for (const name of ["Wish", "Turn over", "Names", "Whole"])
      await page.getByRole("button", { name, exact: true }).click({ trial: true, timeout: 5000 });
    await page.getByRole("button", { name: "Put it away" }).click();
  }
});

test("names and lengths can be read when the whole is shown", async ({ page }) => {
  await page.getByRole("button", { name: "Names" }).click();
  const text = page.locator(".drawing text").first();
  await expect.poll(async () => (await text.boundingBox())?.height ?? 0).toBeGreaterThan(10);
});

test("a slip lies under the piece, not on it", async ({ page, mock }) => {
  mock.refuse = { status: 422, message: "It does not cover. ".repeat(12), hint: "Take more." };
  await page.getByRole("button", { name: "Unpick", exact: true }).click();
  const slip = page.getByRole("alert");
  await expect(slip).toBeVisible();
  await expect
    .poll(async () => {
      const [on, under] = [
        await page.locator(".drawing").first().boundingBox(),
        await slip.boundingBox(),
      ];
      return on && under ? under.y - on.y - on.height : -1;
    })
    .toBeGreaterThan(0);
});

test("sewn up to here, and unpicked, in one touch each", async ({ page, mock }) => {
  for (let i = 0; i < 10; i += 1) await page.keyboard.press("ArrowLeft");
  const at = await place(page);
  expect(at).toBeGreaterThan(mock.entries().filter((entry) => entry.sewn).length);
  await page.getByRole("button", { name: "Sewn to here" }).click();
  await expect(page.locator(".sentence")).toContainText("sewn");
  expect(mock.entries()[at - 1]?.sewn).toBe(true);
  expect(await place(page)).toBe(at);
  await page.keyboard.press("End");
  const before = mock.entries().length;
  await page.getByRole("button", { name: "Unpick" }).click();
  await expect.poll(() => mock.entries().length).toBe(before - 2);
  await expect.poll(() => place(page)).toBe(before - 2);
});

test("a log that grew elsewhere is read again before anything is changed", async ({
  page,
  mock,
}) => {
  mock.pieces += 3;
  mock.version += 1;
  const before = mock.entries().length;
  await page.getByRole("button", { name: "Unpick" }).click();
  await expect(page.getByRole("alert")).toContainText("grown elsewhere");
  expect(mock.entries().length).toBe(before);
  await expect(tape(page)).toHaveAttribute("aria-valuemax", String(before));
});

test("a refusal is shown with what would help, and can be put away", async ({ page, mock }) => {
  mock.refuse = {
    status: 422,
    message: "The scrap does not cover side 12c: 1/4 is missing.",
    hint: "Join on a bit of at least 3/4.",
  };
  await page.getByRole("button", { name: "Unpick" }).click();
  const slip = page.getByRole("alert");
  await expect(slip).toContainText("does not cover side 12c");
  await expect(slip).toContainText("Join on a bit");
  await slip.getByRole("button", { name: "Put the slip away" }).click();
  await expect(slip).toHaveCount(0);
});

test.describe("in an empty room", () => {
  test.use({ pieces: 0 });
  test("scraps are told, a first patch is laid, and another quilt is begun", async ({
    page,
    mock,
  }) => {
    mock.scraps = 0;
    mock.quilts = [];
    await page.reload();
    const begin = page.getByRole("region", { name: "Begin" });
    await begin.getByLabel("A scrap in words").fill("red stripe");
    await begin.getByRole("button", { name: "Put it in" }).click();
    await expect(page.getByRole("alert")).toContainText("no size");
    await begin.getByLabel("A scrap in words").fill("red stripe, about 3 by 5");
    await begin.getByRole("button", { name: "Put it in" }).click();
    await expect(page.getByText("In the heap: No. 1")).toBeVisible();
    await begin.getByRole("button", { name: "Give its measures" }).click();
    await begin.getByLabel("Colour and print").fill("rust dot");
    await begin.getByLabel("Width").fill("4 1/2");
    await begin.getByLabel("Height").fill("7");
    await begin.getByRole("button", { name: "Put it in" }).click();
    await expect.poll(() => mock.entered.length).toBe(2);
    expect(mock.entered[1]).toEqual({
      kind: "rectangle",
      name: "rust dot",
      width: "4 1/2",
      height: "7",
    });
    await begin.getByLabel("What is the quilt called?").fill("Ebb");
    await begin.getByRole("button", { name: "Begin it" }).click();
    await expect(page.getByLabel("Quilt", { exact: true })).toHaveValue("Ebb");
    await begin.getByRole("button", { name: "Lay a first patch" }).click();
    const sheet = page.getByRole("complementary", { name: "A first patch" });
    const lay = sheet.getByRole("button", { name: "Lay it" });
    await expect(lay).toBeDisabled();
    await sheet.getByRole("radio").first().click();
    await lay.click();
    await drawn(page);
    await expect(begin).toHaveCount(0);
    await page.getByLabel("Quilt", { exact: true }).selectOption({ label: "Begin another quilt…" });
    const another = page.getByRole("complementary", { name: "Another quilt" });
    await another.getByLabel("What is the quilt called?").fill("Flow");
    await another.getByRole("button", { name: "Begin it" }).click();
    await expect(page.getByLabel("Quilt", { exact: true })).toHaveValue("Flow");
  });

  test("the page says that nothing is laid yet", async ({ page, grumbles }) => {
    await expect(page.getByText("Nothing is laid yet.")).toBeVisible();
    await expect(page.getByRole("button", { name: "Sewn", exact: true })).toBeDisabled();
    await expect(page.getByRole("button", { name: "Unpick" })).toBeDisabled();
    expect(grumbles).toEqual([]);
  });
});
