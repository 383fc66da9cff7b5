import { expect, it } from "vitest";
import { remembering } from "./cache";

it("a drawing is fetched once while it is remembered", async () => {
  const asked: string[] = [];
  const get = remembering(async (url) => {
    asked.push(url);
    return `<${url}>`;
  }, 2);
  expect(await get("a")).toBe("<a>");
  await get("b");
  await get("a");
  await get("c"); // lets b go, which was asked for longest ago
  await get("a");
  await get("b");
  expect(asked).toEqual(["a", "b", "c", "b"]);
});

it("a failure is not remembered", async () => {
  let times = 0;
  const get = remembering(async () => {
    times += 1;
    if (times === 1) throw new Error("no");
    return "yes";
  });
  await expect(get("a")).rejects.toThrow("no");
  expect(await get("a")).toBe("yes");
});
