// The page with the mock workroom behind it.

import { test as base, expect, type Page } from "@playwright/test";
import { fileURLToPath } from "node:url";
import { MockRoom } from "./mock/room";
import { serve } from "./mock/server";

const dist = fileURLToPath(new URL("../dist", import.meta.url));

export interface Mocked {
  /** How many patches are on its log. */
  pieces: number;
  /** The mock workroom: 22 of its patches are sewn. Change it before or after the page asks. */
  mock: MockRoom;
  /** The page's address. */
  address: string;
  /** What the page said on its console that it should not have. */
  grumbles: string[];
}

export const test = base.extend<Mocked>({
  pieces: [30, { option: true }],
  mock: async ({ pieces }, use) => {
    await use(new MockRoom({ pieces, sewn: Math.min(pieces, 22) }));
  },
  address: async ({ mock }, use) => {
    const { address, server } = await serve(mock, dist);
    await use(address);
    server.closeAllConnections();
    await new Promise((closed) => server.close(closed));
  },
  grumbles: async ({ page }, use) => {
    await use(grumblesOf(page));
  },
});

/** What the page says on its console, from now on, that it should not. */
export function grumblesOf(page: Page): string[] {
  const said: string[] = [];
  page.on("console", (message) => {
    if (["error", "warning"].includes(message.type())) said.push(message.text());
  });
  page.on("pageerror", (error) => said.push(error.message));
  return said;
}

/** Waits until the piece is drawn. */
export async function drawn(page: Page): Promise<void> {
  await expect(page.locator(".drawing [data-patch]").first()).toBeVisible();
}

export { expect };
