// The passes in which a fastener group is tightened. From the middle outwards, so that slack is
// driven to the edge and not trapped; crosswise within each ring. Inside-out order for rectangular
// joints is seen in secondary pages; otherwise common practice, no source.
import { crossOrder } from "./cross-order.ts";
import type { FastenerGroup } from "./fastener-group.ts";
import { type Point, pointsOf } from "./fastener-points.ts";

export const TIGHTENING_CAUTION =
  "The order and torque in the equipment's instructions govern; these are for joints " +
  "whose instructions give a torque but no order. Isolate and prove dead before " +
  "tightening terminals.";

export interface TighteningPass {
  number: number;
  percent: number;
  torqueNm: number;
  kind: "staged" | "check round";
  /** Numbers of the points, in the order they are tightened. */
  order: number[];
}

export interface TighteningOrder {
  points: Point[];
  /** `cross`: all on one circle or equally far out. `inside-out`: ring by ring from the middle. */
  pattern: "cross" | "inside-out";
  passes: TighteningPass[];
  source: string;
  caution: string;
}

/** Passes of a parsed fastener group: every stage in the same order, then the check round. */
export function tighteningOrder(group: FastenerGroup): TighteningOrder {
  const points = pointsOf(group);
  const rings = ringsOf(points);
  const ordered = rings.map(orderRing);
  const order = ordered.flatMap((ring) => ring.order);
  const pass = (percent: number, kind: TighteningPass["kind"], numbers: number[], at: number) => ({
    number: at + 1,
    percent,
    torqueNm: Math.round(group.torqueNm * percent * 10) / 1000,
    kind,
    order: numbers,
  });
  const passes = group.stages.map(({ percent }, at) => pass(percent, "staged", order, at));
  if (group.checkRound) {
    const round = points.map((point) => point.number);
    passes.push(pass(100, "check round", round, passes.length));
  }
  const single = rings.length === 1;
  return {
    points,
    pattern: single ? "cross" : "inside-out",
    passes,
    source: single
      ? (ordered[0]?.source ?? "")
      : "from the middle outwards, seen in secondary pages; crosswise within each ring, " +
        "common practice, no source",
    caution: TIGHTENING_CAUTION,
  };
}

/** Points by distance from their middle, nearest first, each ring clockwise from the top. */
function ringsOf(points: readonly Point[]): Point[][] {
  const middle = {
    xMm: points.reduce((sum, point) => sum + point.xMm, 0) / points.length,
    yMm: points.reduce((sum, point) => sum + point.yMm, 0) / points.length,
  };
  const placed = points
    .map((point) => ({
      point,
      distance: Math.hypot(point.xMm - middle.xMm, point.yMm - middle.yMm),
      turn: clockwiseTurn(point.xMm - middle.xMm, point.yMm - middle.yMm),
    }))
    .sort((a, b) => a.distance - b.distance);
  // Drawn positions are rounded; a thousandth of the size still counts as equally far out.
  const tolerance = (placed.at(-1)?.distance ?? 0) / 1000;
  const rings: (typeof placed)[] = [];
  for (const one of placed) {
    const ring = rings.at(-1);
    const start = ring?.[0]?.distance ?? Number.NEGATIVE_INFINITY;
    if (ring && one.distance - start <= tolerance) ring.push(one);
    else rings.push([one]);
  }
  return rings.map((ring) => ring.sort((a, b) => a.turn - b.turn).map(({ point }) => point));
}

/** Turn from straight up, clockwise, 0 to 2π; a hair before the top counts as the top. */
function clockwiseTurn(x: number, y: number): number {
  const turn = (Math.atan2(x, y) + 2 * Math.PI) % (2 * Math.PI);
  return 2 * Math.PI - turn < 1e-9 ? 0 : turn;
}

function orderRing(ring: readonly Point[]): { order: number[]; source: string } {
  const { order, source } = crossOrder(ring.length);
  // The ring starts at its lowest number, so that a circle numbered from elsewhere starts at 1.
  const lowest = Math.min(...ring.map(({ number }) => number));
  const start = ring.findIndex(({ number }) => number === lowest);
  const numbers = order.map((at) => ring[(start + at - 1) % ring.length]?.number ?? lowest);
  return { order: numbers, source };
}
