// The picture of a fastener group: where each fastener sits, which is tightened first, and every
// pass in words. Turn is told by number and by a line from one to the next, never by colour.
import {
  element,
  HALO,
  INK,
  PAPER,
  shorten,
  svgDocument,
  textElement,
  wrapText,
} from "../siting/svg.ts";
import type { FastenerGroup } from "./fastener-group.ts";
import type { Point } from "./fastener-points.ts";
import { NM_PER_LBF_FT } from "./pound-feet.ts";
import { type TighteningOrder, type TighteningPass, tighteningOrder } from "./tightening-order.ts";

const PAGE_WIDTH = 720;
const LEFT = 24;
const TOP = 110;
const DRAWN = { width: 560, height: 380 };
const LINE = 20;
const RADIUS_MOST = 15;
/** Below this a ring has no room for the fastener's number beside it; the passes still name it. */
const RADIUS_NUMBERED = 11;

/**
 * Draws a parsed fastener group with the order in which it is tightened.
 * @param idPrefix keeps ids unique where a page shows several drawings.
 * @returns SVG text, 720 units wide; names are escaped, colours follow the page.
 */
export function drawTightening(group: FastenerGroup, idPrefix = "tightening"): string {
  const plan = tighteningOrder(group);
  const order = plan.passes[0]?.order ?? [];
  const place = placing(plan.points);
  const title = `Tightening order: ${group.name}`;
  const heading = { "font-size": 20, "font-weight": 700 };
  const parts = [
    textElement(LEFT, 34, shorten(title, 60), heading),
    textElement(LEFT, 58, `${group.count} × ${group.thread}, ${torqueText(group.torqueNm)}`),
    ...path(plan, order, place.at),
    ...plan.points.map((point) => drawPoint(point, order.indexOf(point.number) + 1, place)),
  ];
  let y = TOP + place.height + 50;
  const lines = [
    "In the rings: the turn. Beside them: the fastener's number.",
    ...plan.passes.map(passText),
    `Torque: ${group.torqueSource}. Order: ${plan.source}.`,
    plan.caution,
  ];
  for (const line of lines.flatMap((text) => wrapText(text, 92))) {
    parts.push(textElement(LEFT, y, line));
    y += LINE;
  }
  const description = `${group.count} fasteners. ${plan.passes.map(passText).join(" ")}`;
  return svgDocument({ width: PAGE_WIDTH, height: y + 10, title, description, idPrefix }, ...parts);
}

/** Millimetres of the group to the page, y turned over, one scale both ways. */
function placing(points: readonly Point[]) {
  const xs = points.map(({ xMm }) => xMm);
  const ys = points.map(({ yMm }) => yMm);
  const widthMm = Math.max(...xs) - Math.min(...xs);
  const heightMm = Math.max(...ys) - Math.min(...ys);
  // A single fastener has no extent; any scale will do for it.
  const scale = Math.min(DRAWN.width / (widthMm || 1), DRAWN.height / (heightMm || 1));
  const left = (PAGE_WIDTH - widthMm * scale) / 2;
  const at = (point: Point) => ({
    x: left + (point.xMm - Math.min(...xs)) * scale,
    y: TOP + (Math.max(...ys) - point.yMm) * scale,
  });
  return { at, height: heightMm * scale, radius: ringRadius(points.map(at)) };
}

/** Rings must not touch, however many fasteners there are. */
function ringRadius(places: readonly { x: number; y: number }[]): number {
  const gaps = places.flatMap((a, index) =>
    places.slice(index + 1).map((b) => Math.hypot(a.x - b.x, a.y - b.y)),
  );
  return Math.min(RADIUS_MOST, ...gaps.map((gap) => gap * 0.45));
}

function path(
  plan: TighteningOrder,
  order: readonly number[],
  at: (point: Point) => { x: number; y: number },
): string[] {
  const places = order.flatMap((number) =>
    plan.points.filter((point) => point.number === number).map(at),
  );
  return places.slice(1).map((end, index) => {
    const start = places[index] ?? end;
    const ends = { x1: start.x, y1: start.y, x2: end.x, y2: end.y };
    const style = {
      stroke: INK,
      "stroke-width": 1,
      "stroke-opacity": 0.35,
      "stroke-dasharray": "5 4",
    };
    return element("line", { ...ends, ...style });
  });
}

function drawPoint(
  point: Point,
  turn: number,
  { at: placeOf, radius }: ReturnType<typeof placing>,
): string {
  const at = placeOf(point);
  const ring = { cx: at.x, cy: at.y, r: radius, fill: PAPER, stroke: INK };
  const inside = { "text-anchor": "middle", "font-size": radius, "font-weight": 700 };
  const number = textElement(at.x + radius + 3, at.y - 9, `no. ${point.number}`, {
    ...HALO,
    "font-size": 11,
  });
  return (
    element("circle", { ...ring, "stroke-width": turn === 1 ? 3.5 : 1.8 }) +
    textElement(at.x, at.y + radius / 3, String(turn), inside) +
    (radius < RADIUS_NUMBERED ? "" : number)
  );
}

function passText(pass: TighteningPass): string {
  const what = pass.kind === "check round" ? "check round" : `${pass.percent} %`;
  return (
    `Pass ${pass.number}, ${what}: ${torqueText(pass.torqueNm)}, fasteners ` +
    `${pass.order.join(", ")}.`
  );
}

function torqueText(torqueNm: number): string {
  const poundFeet = Number((torqueNm / NM_PER_LBF_FT).toPrecision(3));
  return `${torqueNm} N·m (${poundFeet} lbf·ft)`;
}
