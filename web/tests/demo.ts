// Makes the demo once, before all tests: every test of the real program gets a copy of its workroom.

import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** Makes it, if a program is named; what is answered takes it away again. */
export default function make(): () => void {
  const program = process.env["RAGBAG"];
  const folder = mkdtempSync(join(tmpdir(), "ragbag-demo-"));
  if (program) {
    execFileSync(program, ["--workroom", join(folder, "room"), "demo"], { stdio: "pipe" });
    process.env["RAGBAG_DEMO"] = join(folder, "room");
  }
  return () => rmSync(folder, { recursive: true, force: true });
}
