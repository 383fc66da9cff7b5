// How the page is built: into `dist`, which the program carries. `npm run dev` serves it with the
// program's answers passed through from its usual place, so that a page can be worked on alone.

import { svelte } from "@sveltejs/vite-plugin-svelte";
import { defineConfig } from "vitest/config";

const program = process.env["RAGBAG_ADDRESS"] ?? "http://127.0.0.1:4777";

export default defineConfig({
  plugins: [svelte()],
  base: "./",
  build: { target: "es2022", assetsInlineLimit: 0, modulePreload: { polyfill: false } },
  server: { proxy: { "/api": program, "/pictures": program } },
  test: { environment: "node", include: ["src/**/*.test.ts"] },
});
