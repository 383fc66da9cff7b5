// Serves the built page and the mock workroom on a free port of the loopback.

import { createReadStream, existsSync, statSync } from "node:fs";
import { createServer, type IncomingMessage, type Server, type ServerResponse } from "node:http";
import type { AddressInfo } from "node:net";
import { extname, join, normalize } from "node:path";
import type { Ask, Scrap, WishChange } from "../../src/api/types";
import { clothDrawing, offerDrawing, pieceDrawing } from "./draw";
import { printPicture } from "./prints";
import type { MockRoom } from "./room";

const KINDS: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript",
  ".css": "text/css",
  ".svg": "image/svg+xml",
  ".woff2": "font/woff2",
};

/** Starts it; the address ends without a slash. */
export async function serve(
  room: MockRoom,
  dist: string,
): Promise<{ address: string; server: Server }> {
  const server = createServer((request, response) => {
    void answer(room, dist, request, response);
  });
  await new Promise<void>((ready) => server.listen(0, "127.0.0.1", ready));
  const { port } = server.address() as AddressInfo;
  return { address: `http://127.0.0.1:${port}`, server };
}

async function answer(
  room: MockRoom,
  dist: string,
  request: IncomingMessage,
  response: ServerResponse,
) {
  const url = new URL(request.url ?? "/", "http://localhost");
  const json = (body: unknown, status = 200): void => {
    response.writeHead(status, { "content-type": "application/json" }).end(JSON.stringify(body));
  };
  const svg = (text: string): void => {
    response.writeHead(200, { "content-type": "image/svg+xml" }).end(text);
  };
  const gone = (): void => json({ error: { message: "There is no such thing.", hint: null } }, 404);
  if (room.refuse && request.method === "POST") {
    const { status, message, hint } = room.refuse;
    json({ error: { message, hint } }, status);
    return;
  }
  const at = /^\/api\/at\/([0-9a-f]+)\/([a-z.]+)$/.exec(url.pathname);
  const offer = /^\/api\/at\/([0-9a-f]+)\/offers\/(\d+)\.svg$/.exec(url.pathname);
  const cloth = /^\/api\/stash\/c(\d+)\.svg$/.exec(url.pathname);
  const job = /^\/api\/jobs\/(\d+)$/.exec(url.pathname);
  const picture = /^\/pictures\/(\d+)$/.exec(url.pathname);
  if (url.pathname === "/api/workroom") json(room.workroom());
  else if (url.pathname === "/api/stash" && request.method === "POST") {
    const said = room.enter(JSON.parse(await textOf(request)) as Scrap);
    if (said) json(said, 201);
    else json({ error: { message: "There is no size in that.", hint: "Write 3 by 5." } }, 422);
  } else if (url.pathname === "/api/stash") json(room.cloths());
  else if (url.pathname === "/api/quilts") {
    const { name } = JSON.parse(await textOf(request)) as { name: string };
    json(room.beginQuilt(name), 201);
  } else if (url.pathname === "/api/undo") {
    const said = room.undo();
    if (said) json(said);
    else json({ error: { message: "There is nothing to undo.", hint: null } }, 422);
  } else if (url.pathname === "/api/jobs") json({ jobs: room.jobs() });
  else if (/^\/api\/quilts\/[^/]+\/log$/.test(url.pathname)) json(room.log());
  else if (/^\/api\/quilts\/[^/]+\/(asks|jobs)$/.test(url.pathname)) {
    const body = JSON.parse(await textOf(request)) as { tip: string | null; ask: Ask };
    const asks = url.pathname.endsWith("asks");
    const said = asks ? room.ask(body.tip, body.ask) : room.begin(body.tip, body.ask);
    if (said) json(said, asks ? 200 : 202);
    else json({ error: { message: "stale", hint: null } }, 409);
  } else if (job) {
    const said = request.method === "DELETE" ? room.stop(Number(job[1])) : room.job(Number(job[1]));
    if (said) json(said);
    else gone();
  } else if (/^\/api\/quilts\/[^/]+\/wish$/.test(url.pathname)) {
    if (request.method === "GET") json(room.wish.read());
    else {
      const said = room.wish.change(JSON.parse(await textOf(request)) as WishChange);
      if (typeof said === "string") json({ error: { message: said, hint: "Write less." } }, 422);
      else json(said);
    }
  } else if (offer?.[1]) {
    const state = room.at(offer[1]);
    const next = room.states[(state?.patches.length ?? 0) + Number(offer[2]) - 1];
    if (state && next) svg(offerDrawing(state, next));
    else gone();
  } else if (at?.[1] && at[2] === "table") json(room.table(at[1]));
  else if (at && at[2] === "eye") json(room.eye());
  else if (at?.[1]) {
    const state = room.at(at[1]);
    const labels = url.searchParams.get("labels") === "true";
    if (state) svg(pieceDrawing(state, { back: at[2] === "back.svg", labels, sewn: room.sewn }));
    else json({ error: { message: "There is no such step.", hint: null } }, 404);
  } else if (cloth) svg(clothDrawing(Number(cloth[1]) + 1));
  else if (picture) svg(printPicture(Number(picture[1])));
  else file(dist, url.pathname, response);
}

function file(dist: string, path: string, response: ServerResponse): void {
  const name = normalize(join(dist, path === "/" ? "index.html" : path));
  if (!name.startsWith(dist) || !existsSync(name) || !statSync(name).isFile()) {
    response.writeHead(404).end();
    return;
  }
  response.writeHead(200, { "content-type": KINDS[extname(name)] ?? "application/octet-stream" });
  createReadStream(name).pipe(response);
}

async function textOf(request: IncomingMessage): Promise<string> {
  let text = "";
  for await (const chunk of request) text += String(chunk);
  return text;
}
