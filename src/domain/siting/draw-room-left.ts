// Marks and lengths crowd where units stand close. Each takes the first of its places that nothing
// else has taken, so that no number lies on another.
import type { Box } from "./draw-scale.ts";

export interface Point {
  x: number;
  y: number;
}

const LETTER_WIDTH = 7.6;
const BOLD_LETTER_WIDTH = 8.4;

/**
 * The first candidate (a centre) whose box is free of `taken`; the first candidate where none is.
 * The chosen box is added to `taken`.
 */
export function takeFree(
  taken: Box[],
  candidates: readonly Point[],
  size: { width: number; height: number },
): Point {
  const boxAt = (centre: Point): Box => ({
    x: centre.x - size.width / 2,
    y: centre.y - size.height / 2,
    ...size,
  });
  const free = candidates.find((centre) => !taken.some((box) => overlap(box, boxAt(centre))));
  const chosen = free ?? candidates[0] ?? { x: 0, y: 0 };
  taken.push(boxAt(chosen));
  return chosen;
}

/** Room a line of 14-unit text takes, estimated from its letters. */
export function textSize(text: string, bold: boolean): { width: number; height: number } {
  const letters = [...text].length;
  return { width: letters * (bold ? BOLD_LETTER_WIDTH : LETTER_WIDTH), height: 18 };
}

function overlap(a: Box, b: Box): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}
