// The one place that speaks to the program. Everything is on the page's own server.

import type {
  Answer,
  Ask,
  Begun,
  Cards,
  CaughtUp,
  ClothOutline,
  Enough,
  Entered,
  Eye,
  Found,
  Job,
  Jobs,
  Kept,
  Log,
  Looks,
  OwnWords,
  PaperOffered,
  PaperMade,
  PaperWish,
  Photo,
  PhotoEye,
  PieceSeen,
  Scrap,
  Stash,
  Table,
  Undone,
  Wish,
  WishChange,
  Workroom,
} from "./types";

/** The program refused, or could not be reached. The message is fit to be shown. */
export class Refusal extends Error {
  constructor(
    message: string,
    readonly hint: string | null,
    readonly status: number,
  ) {
    super(message);
    this.name = "Refusal";
  }

  /** Whether the log has grown elsewhere since it was read. */
  get stale(): boolean {
    return this.status === 409;
  }
}

const part = encodeURIComponent;

/** Every quilt and its heads. */
export const workroom = (): Promise<Workroom> => read("/api/workroom");

/** The heap, with what this quilt's plan claims of it; without a quilt, as it is. */
export const stash = (quilt: string | null): Promise<Stash> =>
  read(quilt === null ? "/api/stash" : `/api/stash?quilt=${part(quilt)}`);

/** The log of a head. */
export const log = (quilt: string, head: string): Promise<Log> =>
  read(`/api/quilts/${part(quilt)}/log?head=${part(head)}`);

/** What lies on the table after a step. */
export const table = (step: string): Promise<Table> => read(`/api/at/${part(step)}/table`);

/** The eye check after a step, against the quilt's wish. */
export const eye = (step: string, quilt: string): Promise<Eye> =>
  read(`/api/at/${part(step)}/eye?quilt=${part(quilt)}`);

/** Which face of the piece. */
export type Face = "front" | "back";

/** What is written onto the drawing. */
export interface Lettering {
  readonly labels: boolean;
  readonly measures: boolean;
}

/**
 * Where the drawing of a step is, with what is sewn by then (everything up to `sewn`) told from what
 * is chalk; with the photograph that the piece was measured by in the place of its cloth, if that is
 * wished. It never changes.
 */
export function drawingUrl(
  step: string,
  face: Face,
  lettering: Lettering,
  sewn: string | null,
  photo = false,
): string {
  const { labels, measures } = lettering;
  const shown = photo && face === "front" ? "&photo=true" : "";
  const asked = `labels=${labels}&measures=${measures}&sewn=${part(sewn ?? "none")}${shown}`;
  return `/api/at/${part(step)}/${face}.svg?${asked}`;
}

/** A drawing's text. */
export async function drawing(url: string): Promise<string> {
  return (await send(url, {})).text();
}

/** Asks the program for something that may change the log. */
export const ask = (quilt: string, head: string, tip: string | null, what: Ask): Promise<Answer> =>
  read(`/api/quilts/${part(quilt)}/asks`, brought("POST", { head, tip, ask: what }));

/** Begins to grow, or to grow what-ifs; it is answered at once. */
export const begin = (quilt: string, head: string, tip: string | null, what: Ask): Promise<Job> =>
  read(`/api/quilts/${part(quilt)}/jobs`, brought("POST", { head, tip, ask: what }));

/** Every job that the program knows. */
export const jobs = (): Promise<Jobs> => read("/api/jobs");

/** How far a job has come. */
export const job = (number: number): Promise<Job> => read(`/api/jobs/${number}`);

/** Asks a job to stop. */
export const stop = (number: number): Promise<Job> =>
  read(`/api/jobs/${number}`, { method: "DELETE" });

/** From which quilt, head and tip something is asked. */
export interface From {
  readonly quilt: string;
  readonly head: string;
  readonly tip: string | null;
}

/** Looks at stages, each by itself; nothing is changed. What takes longer is asked for by `see`. */
export const look = (
  { quilt, head, tip }: From,
  stages: readonly unknown[],
  svg: string | null,
): Promise<Looks> =>
  read(`/api/quilts/${part(quilt)}/looks`, brought("POST", { head, tip, stages, svg }));

/** A look that was begun. */
export const see = (number: number): Promise<Looks> => read(`/api/looks/${number}`);

/** Takes a stage: it is planned, as chalk. */
export const takeStage = (
  { quilt, head, tip }: From,
  stage: unknown,
  svg: string | null,
): Promise<Answer> =>
  read(`/api/quilts/${part(quilt)}/stages`, brought("POST", { head, tip, stage, svg }));

/** Whether the heap has enough for all that is chosen, and what to buy. */
export const enough = (quilt: string, head: string): Promise<Enough> =>
  read(`/api/quilts/${part(quilt)}/enough?head=${part(head)}`);

/** Puts a scrap into the heap. */
export const enter = (scrap: Scrap): Promise<Entered> => read("/api/stash", brought("POST", scrap));

/** What photographs are measured by. */
export const cards = (): Promise<Cards> => read("/api/cards");

/** Keeps what a card's black square measures, as a maker writes it. */
export const measureCards = (side: string): Promise<Cards> =>
  read("/api/cards", brought("PUT", { side }));

/** What a photograph is of. */
export type PhotoOf = "scraps" | "piece";

/** Gives a picture to be read; it is answered at once. */
export const givePhoto = (picture: Blob, name: string, of: PhotoOf): Promise<Photo> =>
  read(`/api/photos?name=${part(name)}&of=${of}`, {
    method: "POST",
    headers: { "content-type": "application/octet-stream" },
    body: picture,
  });

/** A picture that was given. */
export const photo = (number: number): Promise<Photo> => read(`/api/photos/${number}`);

/** Has a picture forgotten. */
export const forgetPhoto = async (number: number): Promise<void> => {
  await send(`/api/photos/${number}`, { method: "DELETE" });
};

/** Has the outline of a found cloth put right; null has it again as it was found. */
export const correct = (
  number: number,
  no: number,
  outline: readonly (readonly [number, number])[] | null,
): Promise<Found> => read(`/api/photos/${number}/found/${no}`, brought("PUT", { outline }));

/** Puts found cloths into the heap. */
export const keep = (number: number, kept: readonly Kept[]): Promise<Entered> =>
  read(`/api/photos/${number}/kept`, brought("POST", { kept }));

/** Holds a found cloth, as the piece on the table, against its plan. Nothing is changed. */
export const comparePiece = (
  number: number,
  { quilt, head, tip }: From,
  no: number,
  turned_deg: number,
): Promise<PieceSeen> =>
  read(`/api/photos/${number}/piece`, brought("POST", { quilt, head, tip, no, turned_deg }));

/** Puts what was seen of the piece in the place of what was planned. */
export const takePiece = (
  number: number,
  { quilt, head, tip }: From,
  no: number,
  turned_deg: number,
): Promise<Answer> =>
  read(`/api/photos/${number}/measured`, brought("POST", { quilt, head, tip, no, turned_deg }));

/** Reads which patches were sewn on since the last step. Nothing is changed. */
export const sewnSince = (
  number: number,
  { quilt, head, tip }: From,
  no: number,
): Promise<CaughtUp> =>
  read(`/api/photos/${number}/sewn_since`, brought("POST", { quilt, head, tip, no }));

/** Takes in what was sewn since: for each new patch its cloth, or null where it stays as it was found. */
export const takeSewn = (
  number: number,
  { quilt, head, tip }: From,
  no: number,
  made_of: readonly (string | null)[],
): Promise<Answer> =>
  read(`/api/photos/${number}/caught_up`, brought("POST", { quilt, head, tip, no, made_of }));

/** Takes the whole piece as it was found: one patch with its picture. */
export const takeAsFound = (
  number: number,
  { quilt, head, tip }: From,
  no: number,
): Promise<Answer> =>
  read(`/api/photos/${number}/as_found`, brought("POST", { quilt, head, tip, no }));

/** The eye check of a piece in a picture, by the wish of a quilt where one is named. */
export const photoEye = (number: number, quilt: string | null): Promise<PhotoEye> =>
  read(`/api/photos/${number}/eye${quilt ? `?quilt=${part(quilt)}` : ""}`);

/** The outline of a cloth of the heap, over its picture. */
export const clothOutline = (cloth: string): Promise<ClothOutline> =>
  read(`/api/stash/${part(cloth)}/outline`);

/** Puts the outline of a cloth of the heap right. */
export const correctCloth = (
  cloth: string,
  outline: readonly (readonly [number, number])[],
): Promise<ClothOutline> => read(`/api/stash/${part(cloth)}/outline`, brought("PUT", { outline }));

/** The papers that can be asked for. */
export const papers = (): Promise<readonly PaperOffered[]> => read("/api/papers");

/** A paper of a head, or the booklet, as PDF. */
export async function paper(
  quilt: string,
  head: string,
  name: string,
  how: PaperWish,
): Promise<PaperMade> {
  const asked = new URLSearchParams({ head });
  for (const [key, value] of Object.entries(how)) {
    if (value !== false) asked.set(key, String(value));
  }
  const address = `/api/quilts/${part(quilt)}/papers/${part(name)}?${asked.toString()}`;
  const answer = await send(address, {});
  const said = (head: string): string => answer.headers.get(head) ?? "";
  return {
    pages: await answer.blob(),
    lost: Number(said("ragbag-lost-pictures")),
    leftOut: said("ragbag-left-out")
      .split(",")
      .filter((one) => one !== ""),
  };
}

/** The maker's own words for a quilt's pattern. */
export const ownWords = (quilt: string): Promise<OwnWords> =>
  read(`/api/quilts/${part(quilt)}/words`);

/** Keeps the maker's own words for a quilt's pattern. */
export const keepWords = (quilt: string, words: OwnWords): Promise<OwnWords> =>
  read(`/api/quilts/${part(quilt)}/words`, brought("PUT", words));

/** Begins a quilt: an empty table. */
export const beginQuilt = (name: string): Promise<Begun> =>
  read("/api/quilts", brought("POST", { name }));

/** Takes back what was done last in the workroom, whatever it was. */
export const undo = (): Promise<Undone> => read("/api/undo", { method: "POST" });

/** What is wished of a quilt. */
export const wish = (quilt: string): Promise<Wish> => read(`/api/quilts/${part(quilt)}/wish`);

/** Changes the wish: all that is named, or nothing. */
export const changeWish = (quilt: string, change: WishChange): Promise<Wish> =>
  read(`/api/quilts/${part(quilt)}/wish`, brought("PATCH", change));

const brought = (method: string, body: unknown): RequestInit => ({
  method,
  headers: { "content-type": "application/json" },
  body: JSON.stringify(body),
});

async function read<T>(url: string, init: RequestInit = {}): Promise<T> {
  return (await (await send(url, init)).json()) as T;
}

async function send(url: string, init: RequestInit): Promise<Response> {
  let response: Response;
  try {
    response = await fetch(url, init);
  } catch {
    throw new Refusal(
      "Ragbag does not answer.",
      "Is it still running? Start it again, then reload.",
      0,
    );
  }
  if (!response.ok) throw await refusal(response);
  return response;
}

async function refusal(response: Response): Promise<Refusal> {
  const said = (await response.json().catch(() => null)) as {
    error?: { message?: string; hint?: string | null };
  } | null;
  const message = said?.error?.message ?? `Ragbag answered ${response.status} without a reason.`;
  return new Refusal(message, said?.error?.hint ?? null, response.status);
}
