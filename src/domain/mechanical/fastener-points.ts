// Requirement: every fastener of a group has a number and a place, so that an order can be drawn
// and ticked one by one. Apart from the group's shape, so that a tablet draws without the code
// that reads groups.
import type { FastenerGroup } from "./fastener-group.ts";

/** A fastener's place, y upwards, numbered from 1. */
export interface Point {
  number: number;
  xMm: number;
  yMm: number;
}

/** Places of all fasteners, in order of their numbers. */
export function pointsOf(group: FastenerGroup): Point[] {
  const { pattern } = group;
  if (pattern.kind === "positions") {
    return pattern.points.map((point, at) => ({ number: at + 1, ...point }));
  }
  if (pattern.kind === "bolt-circle") {
    return Array.from({ length: group.count }, (_, at) => {
      const turn = (pattern.firstAngleDeg / 360 + at / group.count) * 2 * Math.PI;
      const radiusMm = pattern.diameterMm / 2;
      return { number: at + 1, xMm: radiusMm * Math.sin(turn), yMm: radiusMm * Math.cos(turn) };
    });
  }
  const { columns, rows, pitchXMm, pitchYMm } = pattern;
  return Array.from({ length: columns * rows }, (_, at) => ({
    number: at + 1,
    xMm: (at % columns) * pitchXMm,
    yMm: (rows - 1 - Math.floor(at / columns)) * pitchYMm,
  }));
}
