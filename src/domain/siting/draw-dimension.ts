// Dimension lines with their measured length. A breach is told by shape and word: a diamond, a
// heavy broken line and "breaks"; what is met has a circle and a thin line. Colour only adds to it.
import { type Point, takeFree, textSize } from "./draw-room-left.ts";
import type { Box, PlaneFrame } from "./draw-scale.ts";
import type { Finding } from "./finding.ts";
import type { Rectangle } from "./geometry.ts";
import { type Attributes, BREACH, drawn, element, HALO, INK, PAPER, textElement } from "./svg.ts";

/** Half the height of the largest mark. */
export const MARK_REACH = 14;

/** Numbered mark: diamond for what breaks, square for what needs survey, circle for what is met. */
export function drawMark(at: Point, number: number, verdict: Finding["verdict"]): string {
  const breach = verdict === "breaks";
  const stroke = breach ? BREACH : INK;
  const common: Attributes = { fill: PAPER, stroke, "stroke-width": breach ? 3 : 1.5 };
  const start = `M${drawn(at.x)} ${drawn(at.y - MARK_REACH)}`;
  const shape = breach
    ? element("path", { d: `${start}l14 14l-14 14l-14 -14z`, ...common })
    : verdict === "needs-survey"
      ? element("rect", { x: at.x - 11, y: at.y - 11, width: 22, height: 22, ...common })
      : element("circle", { cx: at.x, cy: at.y, r: 11, ...common });
  const text: Attributes = {
    "text-anchor": "middle",
    "font-size": 12,
    "font-weight": breach ? 700 : 400,
    fill: stroke,
  };
  return shape + textElement(at.x, at.y + 4.5, String(number), text);
}

export interface DimensionMark {
  number: number;
  /** 0, 1, 2 …: spreads lines that would else lie on each other. */
  slot: number;
  /** The measured length as text. */
  label: string;
}

/**
 * The dimension line of a distance finding between two rectangles of one plane, and, apart from
 * it, its mark and length: those are drawn above every line of the plane.
 * @param taken room already taken on the page; the mark and the length are added.
 */
export function drawDimension(
  frame: PlaneFrame,
  finding: Finding,
  ends: { from: Rectangle; to: Rectangle },
  mark: DimensionMark,
  taken: Box[],
): { line: string; over: string } {
  const [start, end] = dimensionEnds(finding.direction, ends.from, ends.to, mark.slot);
  const a = frame.point(start.x, start.y);
  const b = frame.point(end.x, end.y);
  const breach = finding.verdict === "breaks";
  const stroke: Attributes = {
    stroke: breach ? BREACH : INK,
    "stroke-width": breach ? 3 : 1.2,
    "stroke-dasharray": breach ? "9 4" : undefined,
  };
  const line = element("line", { x1: a.x, y1: a.y, x2: b.x, y2: b.y, ...stroke });
  const along = [0.5, 0.35, 0.65, 0.2, 0.8].map((share) => ({
    x: a.x + (b.x - a.x) * share,
    y: a.y + (b.y - a.y) * share,
  }));
  const at = takeFree(taken, along, { width: 28, height: 28 });
  const upright = Math.abs(b.y - a.y) > Math.abs(b.x - a.x);
  const text = breach ? `breaks: ${mark.label}` : mark.label;
  const length = drawLength(at, text, { breach, upright }, taken);
  const over = drawMark(at, mark.number, finding.verdict) + length;
  return { line: line + endBar(a, b, stroke) + endBar(b, a, stroke), over };
}

/** Beside its mark where the line is upright, else above or below: never on the line itself. */
function drawLength(
  at: Point,
  text: string,
  { breach, upright }: { breach: boolean; upright: boolean },
  taken: Box[],
): string {
  const size = textSize(text, breach);
  const sideways = size.width / 2 + 18;
  const beside = [sideways, -sideways].map((dx) => ({ x: at.x + dx, y: at.y }));
  const over = [-24, 24, -44, 44, -64, 64].map((dy) => ({ x: at.x, y: at.y + dy }));
  const centre = takeFree(taken, upright ? [...beside, ...over] : [...over, ...beside], size);
  const style = { ...HALO, "text-anchor": "middle", "font-weight": breach ? 700 : 400 };
  return textElement(centre.x, centre.y + 5, text, style);
}

/** Ends of the line, in mm of the plane, from the edge of `from` to the edge of `to`. */
function dimensionEnds(
  direction: Finding["direction"],
  from: Rectangle,
  to: Rectangle,
  slot: number,
): [Point, Point] {
  const [fromX, toX] = nearest(from.xMm, from.widthMm, to.xMm, to.widthMm, slot);
  const [fromY, toY] = nearest(from.yMm, from.heightMm, to.yMm, to.heightMm, slot);
  const start = { x: fromX, y: fromY };
  if (direction === "beside") return [start, { x: toX, y: fromY }];
  if (direction === "straight-line") return [start, { x: toX, y: toY }];
  return [start, { x: fromX, y: toY }];
}

const SPREAD = [0.5, 0.25, 0.75, 0.1, 0.9] as const;

/** Nearest coordinates of two intervals; where they overlap, one shared coordinate inside both. */
function nearest(
  aStart: number,
  aLength: number,
  bStart: number,
  bLength: number,
  slot: number,
): [number, number] {
  const aEnd = aStart + aLength;
  const bEnd = bStart + bLength;
  if (bStart > aEnd) return [aEnd, bStart];
  if (aStart > bEnd) return [aStart, bEnd];
  const low = Math.max(aStart, bStart);
  const high = Math.min(aEnd, bEnd);
  const shared = low + (high - low) * (SPREAD[slot % SPREAD.length] ?? 0.5);
  return [shared, shared];
}

function endBar(at: Point, other: Point, stroke: Attributes): string {
  const length = Math.hypot(other.x - at.x, other.y - at.y) || 1;
  const dx = (-(other.y - at.y) / length) * 7;
  const dy = ((other.x - at.x) / length) * 7;
  const bar = { ...stroke, "stroke-dasharray": undefined };
  return element("line", { x1: at.x - dx, y1: at.y - dy, x2: at.x + dx, y2: at.y + dy, ...bar });
}
