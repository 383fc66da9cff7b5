// Browser tests: the built page in Debian's Chromium, at a desk's width and at a phone's.

import { defineConfig } from "@playwright/test";

const quiet = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];
const chromium = {
  browserName: "chromium" as const,
  launchOptions: { executablePath: process.env["CHROMIUM"] ?? "/usr/bin/chromium", args: quiet },
};

export default defineConfig({
  testDir: "tests",
  globalSetup: "./tests/demo.ts",
  fullyParallel: false,
  workers: 1,
  forbidOnly: true,
  timeout: 60_000,
  reporter: [["list"]],
  projects: [
    { name: "desk", use: { ...chromium, viewport: { width: 1440, height: 900 } } },
    {
      name: "phone",
      use: { ...chromium, viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true },
    },
  ],
});
