// Makes a drawing's text into an element of the page.
//
// What could run or reach out is taken away, although it comes from our own program: drawings hold
// words that people typed. Ids are made the sheet's own, because many drawings stand on one page
// and `url(#clip-1)` must mean the one in the same sheet.

import { clothPoint, type ClothBox } from "../camera/points";

/** A drawing ready to be put on the page. */
export interface Sheet {
  readonly svg: SVGSVGElement;
  /** What it shows, in inches. */
  readonly box: ClothBox;
  /** Inches for one unit of the drawing's own coordinates. */
  readonly unit_in: number;
}

const UNITS_IN: Readonly<Record<string, number>> = {
  in: 1,
  mm: 1 / 25.4,
  cm: 1 / 2.54,
  px: 1 / 96,
  pt: 1 / 72,
};
const REFUSED = "script, foreignObject, iframe, object, embed, animate, set, style[src]";

let count = 0;

/** The drawing as an element, or null if the text is no drawing. Without a physical size, one unit is one inch. */
export function sheetFrom(text: string): Sheet | null {
  const parsed = new DOMParser().parseFromString(text, "image/svg+xml");
  const root = parsed.documentElement;
  if (!(root instanceof SVGSVGElement) || parsed.querySelector("parsererror")) return null;
  const svg = document.importNode(root, true);
  clean(svg);
  count += 1;
  ownIds(svg, `s${count}-`);
  const [x = 0, y = 0, width = 0, height = 0] = (svg.getAttribute("viewBox") ?? "")
    .split(/[\s,]+/)
    .map(Number);
  if (!(width > 0) || !(height > 0)) return null;
  const unit_in = widthInches(svg) / width;
  return {
    svg,
    unit_in,
    box: {
      least: clothPoint(x * unit_in, y * unit_in),
      most: clothPoint((x + width) * unit_in, (y + height) * unit_in),
    },
  };

  function widthInches(of: SVGSVGElement): number {
    const size = /^([\d.]+)([a-z]+)$/.exec(of.getAttribute("width") ?? "");
    const per = UNITS_IN[size?.[2] ?? ""];
    return size && per ? Number(size[1]) * per : width;
  }
}

function clean(svg: Element): void {
  for (const refused of svg.querySelectorAll(REFUSED)) refused.remove();
  for (const element of [svg, ...svg.querySelectorAll("*")]) {
    for (const { name, value } of [...element.attributes]) {
      const link = name === "href" || name === "xlink:href";
      if (name.startsWith("on") || (link && !/^(#|\/(?!\/)|data:image\/)/.test(value)))
        element.removeAttribute(name);
    }
  }
}

/** Puts `prefix` before every id and before every mention of one. */
function ownIds(svg: Element, prefix: string): void {
  for (const element of [svg, ...svg.querySelectorAll("*")]) {
    for (const { name, value } of [...element.attributes]) {
      if (name === "id") element.setAttribute(name, prefix + value);
      else if (name.endsWith("href") && value.startsWith("#"))
        element.setAttribute(name, `#${prefix}${value.slice(1)}`);
      else if (value.includes("url(#"))
        element.setAttribute(name, value.replaceAll("url(#", `url(#${prefix}`));
    }
  }
}
