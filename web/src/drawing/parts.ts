// Finds the named parts of a drawing, so that a hand can point at them: `data-patch`, `data-side`
// and `data-seam` carry the names of the sewing log.

/** What can be pointed at. */
export type PartKind = "patch" | "side" | "seam";

/** The line of a named part, in the drawing's own coordinates. */
export interface Part {
  readonly kind: PartKind;
  readonly name: string;
  /** Path data. */
  readonly d: string;
  /** An SVG transform that takes the path to the drawing's coordinates. */
  readonly transform: string;
}

const SHAPES = "path, polygon, polyline, line, rect";

/** Every part of one kind whose line can be told, in the order drawn. */
export function parts(svg: SVGSVGElement, kind: PartKind): Part[] {
  return [...svg.querySelectorAll(`[data-${kind}]`)].flatMap((element) => {
    const shape = shapeOf(element);
    const d = shape ? pathOf(shape) : null;
    const name = element.getAttribute(`data-${kind}`);
    return shape && d && name ? [{ kind, name, d, transform: transformOf(shape, svg) }] : [];
  });
}

/** The shape that gives a part its line: itself, or the first inside it that is not a clip. */
function shapeOf(element: Element): Element | null {
  if (element.matches(SHAPES)) return element;
  const inside = [...element.querySelectorAll(SHAPES)];
  return inside.find((one) => !one.closest("clipPath, defs, pattern, mask")) ?? null;
}

function pathOf(shape: Element): string | null {
  const number = (name: string): number => Number(shape.getAttribute(name) ?? 0);
  switch (shape.localName) {
    case "path":
      return shape.getAttribute("d");
    case "polygon":
      return `M${shape.getAttribute("points") ?? ""}Z`;
    case "polyline":
      return `M${shape.getAttribute("points") ?? ""}`;
    case "line":
      return `M${number("x1")},${number("y1")}L${number("x2")},${number("y2")}`;
    case "rect":
      return `M${number("x")},${number("y")}h${number("width")}v${number("height")}h${-number("width")}Z`;
    default:
      return null;
  }
}

function transformOf(shape: Element, svg: SVGSVGElement): string {
  const found: string[] = [];
  for (let at: Element | null = shape; at && at !== svg; at = at.parentElement) {
    const transform = at.getAttribute("transform");
    if (transform) found.unshift(transform);
  }
  return found.join(" ");
}
