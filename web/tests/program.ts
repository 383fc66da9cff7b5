// The page with the program itself behind it, serving a copy of its demo.

import { spawn } from "node:child_process";
import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { drawn, grumblesOf, test as base } from "./mocked";

const PROGRAM = process.env["RAGBAG"];
const LISTENING = /listening on (http:\/\/\S+)/;

/** Starts the program; the address it says it listens on, and how to end it. */
async function start(workroom: string): Promise<{ address: string; end: () => void }> {
  const child = spawn(PROGRAM ?? "ragbag", ["--workroom", workroom, "serve", "--port", "0"]);
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

export const test = base.extend<{ program: string }>({
  program: async ({ pieces }, use) => {
    void pieces;
    base.skip(!PROGRAM, "RAGBAG names no program; `cargo xtask test` builds it and does");
    const folder = mkdtempSync(join(tmpdir(), "ragbag-page-"));
    const workroom = join(folder, "room");
    cpSync(process.env["RAGBAG_DEMO"] ?? "", workroom, { recursive: true });
    const { address, end } = await start(workroom);
    await use(address);
    end();
    rmSync(folder, { recursive: true, force: true });
  },
  /** The page, opened, with the piece drawn. */
  page: async ({ page, program }, use) => {
    await page.goto(program);
    await drawn(page);
    await use(page);
  },
  grumbles: async ({ page, program }, use) => {
    const said = grumblesOf(page);
    // Opened anew, so that nothing it says while it opens is missed.
    await page.goto(program);
    await drawn(page);
    await use(said);
  },
});
