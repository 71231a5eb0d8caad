// Distances are taken edge to edge in the plane, as the codes print them ("from the edge of the
// rack"), never centre to centre. Depth is left out, so a drawn distance is never longer than the
// true one: the error is on the safe side.

/** A rectangle in a plane; y grows upwards. All in mm. */
export interface Rectangle {
  xMm: number;
  yMm: number;
  widthMm: number;
  heightMm: number;
}

export interface Gap {
  /** Clear distance sideways, 0 where the two share a vertical line. */
  acrossMm: number;
  /** Clear distance up or down, 0 where the two share a horizontal line. */
  upMm: number;
  /** Shortest straight line between the edges. */
  straightMm: number;
  /** Where the second lies, seen from the first, judged by height alone. */
  height: "above" | "below" | "level";
}

/** Edge-to-edge gap from `a` to `b`, in mm rounded to 0.001 so that sums of inches compare. */
export function gapBetween(a: Rectangle, b: Rectangle): Gap {
  const acrossMm = Math.max(0, b.xMm - (a.xMm + a.widthMm), a.xMm - (b.xMm + b.widthMm));
  const aboveMm = b.yMm - (a.yMm + a.heightMm);
  const belowMm = a.yMm - (b.yMm + b.heightMm);
  const upMm = Math.max(0, aboveMm, belowMm);
  return {
    acrossMm: roundMm(acrossMm),
    upMm: roundMm(upMm),
    straightMm: roundMm(Math.hypot(acrossMm, upMm)),
    height: aboveMm >= 0 ? "above" : belowMm >= 0 ? "below" : "level",
  };
}

/** The rectangle grown on each side and above, cut off at the plane's edges. */
export function growWithin(
  inner: Rectangle,
  by: { besideMm: number; aboveMm: number },
  plane: { widthMm: number; heightMm: number },
): Rectangle {
  const leftMm = Math.max(0, inner.xMm - by.besideMm);
  const rightMm = Math.min(plane.widthMm, inner.xMm + inner.widthMm + by.besideMm);
  const topMm = Math.min(plane.heightMm, inner.yMm + inner.heightMm + by.aboveMm);
  return { xMm: leftMm, yMm: inner.yMm, widthMm: rightMm - leftMm, heightMm: topMm - inner.yMm };
}

/** Share (0 to 1) of `target` covered by the union of `covers`. */
export function coveredShare(target: Rectangle, covers: readonly Rectangle[]): number {
  const xs = cuts(target.xMm, target.widthMm, covers, (r) => [r.xMm, r.xMm + r.widthMm]);
  const ys = cuts(target.yMm, target.heightMm, covers, (r) => [r.yMm, r.yMm + r.heightMm]);
  let coveredMm2 = 0;
  for (const [left, right] of pairs(xs)) {
    for (const [low, high] of pairs(ys)) {
      const covered = covers.some(
        (r) =>
          r.xMm <= left && r.xMm + r.widthMm >= right && r.yMm <= low && r.yMm + r.heightMm >= high,
      );
      if (covered) coveredMm2 += (right - left) * (high - low);
    }
  }
  return coveredMm2 / (target.widthMm * target.heightMm);
}

function cuts(
  start: number,
  length: number,
  covers: readonly Rectangle[],
  edges: (r: Rectangle) => number[],
): number[] {
  const inside = covers.flatMap(edges).filter((edge) => edge > start && edge < start + length);
  return [...new Set([start, ...inside, start + length])].sort((a, b) => a - b);
}

function pairs(values: readonly number[]): [number, number][] {
  return values.slice(1).map((value, index) => [values[index] ?? value, value]);
}

/** A length in mm to the nearest 0.001. */
export function roundMm(lengthMm: number): number {
  return Math.round(lengthMm * 1000) / 1000;
}
