// Two kinds of points that must never be mixed up: pixels on the screen, and inches on the cloth.
//
// A cloth point lies where the drawing shows it, so its y grows downwards as in the drawing. The
// brands exist for the compiler only.

declare const kind: unique symbol;

/** A place in the piece's window, in CSS pixels from its top left corner. */
export type ScreenPoint = { readonly x: number; readonly y: number } & {
  readonly [kind]: "screen";
};

/** A place on the drawing, in inches; y grows downwards. */
export type ClothPoint = { readonly x: number; readonly y: number } & { readonly [kind]: "cloth" };

/** A place on the screen, in pixels. */
export const screenPoint = (x: number, y: number): ScreenPoint => ({ x, y }) as ScreenPoint;

/** A place on the drawing, in inches. */
export const clothPoint = (x: number, y: number): ClothPoint => ({ x, y }) as ClothPoint;

/** An upright box on the drawing, in inches. */
export interface ClothBox {
  readonly least: ClothPoint;
  readonly most: ClothPoint;
}

/** The least box around two. */
export const around = (one: ClothBox, other: ClothBox): ClothBox => ({
  least: clothPoint(Math.min(one.least.x, other.least.x), Math.min(one.least.y, other.least.y)),
  most: clothPoint(Math.max(one.most.x, other.most.x), Math.max(one.most.y, other.most.y)),
});

/** The size of the window that the piece is seen through, in pixels. */
export interface Window {
  readonly width: number;
  readonly height: number;
}

/** The part of the window over which nothing lies, in pixels. */
export interface Clear extends Window {
  readonly left: number;
  readonly top: number;
}
