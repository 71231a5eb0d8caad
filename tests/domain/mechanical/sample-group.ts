// Fastener groups to be bent by each test into the case it is about.
import {
  type FastenerGroup,
  type FastenerGroupInput,
  parseFastenerGroup,
} from "../../../src/domain/mechanical/fastener-group.ts";

export const circle = (
  count: number,
  more: Partial<FastenerGroupInput> = {},
): FastenerGroupInput => ({
  id: "cover",
  name: "Cover",
  count,
  pattern: { kind: "bolt-circle", diameterMm: 200 },
  thread: "M6",
  torqueNm: 8,
  torqueSource: "Sample install sheet",
  ...more,
});
export const grid = (columns: number, rows: number): FastenerGroupInput =>
  circle(columns * rows, {
    pattern: { kind: "rectangle", columns, rows, pitchXMm: 100, pitchYMm: 80 },
  });
export function group(input: unknown): FastenerGroup {
  const parsed = parseFastenerGroup(input);
  if (!parsed.ok) throw new Error(parsed.problem);
  return parsed.group;
}
