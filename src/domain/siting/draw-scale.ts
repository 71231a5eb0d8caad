// All planes of a survey share one scale, so that what looks wider is wider. y grows upwards in
// the survey and downwards on the page: this is the one place that turns it over.
import type { Rectangle } from "./geometry.ts";
import type { Survey, SurveyPlane } from "./survey.ts";

export const PAGE_WIDTH = 960;
export const MARGIN = 48;
const DRAWN_WIDTH = PAGE_WIDTH - 2 * MARGIN;
const DRAWN_HEIGHT = 420;

/** Drawing units per mm at which the widest and the highest plane both fit. */
export function commonScale(survey: Survey): number {
  const widestMm = Math.max(...survey.planes.map((plane) => plane.widthMm));
  const highestMm = Math.max(...survey.planes.map((plane) => plane.heightMm));
  return Math.min(DRAWN_WIDTH / widestMm, DRAWN_HEIGHT / highestMm);
}

export interface Box {
  x: number;
  y: number;
  width: number;
  height: number;
}

export interface PlaneFrame {
  plane: SurveyPlane;
  scale: number;
  left: number;
  top: number;
  /** A point of the plane on the page. */
  point(xMm: number, yMm: number): { x: number; y: number };
  /** A rectangle of the plane on the page. */
  box(rectangle: Rectangle): Box;
}

/** Places a plane on the page, its upper left corner at (left, top). */
export function placePlane(
  plane: SurveyPlane,
  scale: number,
  left: number,
  top: number,
): PlaneFrame {
  const point = (xMm: number, yMm: number) => ({
    x: left + xMm * scale,
    y: top + (plane.heightMm - yMm) * scale,
  });
  return {
    plane,
    scale,
    left,
    top,
    point,
    box: (rectangle) => ({
      ...point(rectangle.xMm, rectangle.yMm + rectangle.heightMm),
      width: rectangle.widthMm * scale,
      height: rectangle.heightMm * scale,
    }),
  };
}

/** A round length (1, 2 or 5 times a power of ten of the unit) that draws 60 to 180 wide. */
export function scaleBarLength(
  scale: number,
  display: "mm" | "in",
): { lengthMm: number; width: number; text: string } {
  const unitMm = display === "mm" ? 1 : 25.4;
  const largest = 180 / (scale * unitMm);
  const power = 10 ** Math.floor(Math.log10(largest));
  const count = ([5, 2, 1].find((step) => step * power <= largest) ?? 1) * power;
  const lengthMm = count * unitMm;
  return { lengthMm, width: lengthMm * scale, text: `${Number(count.toPrecision(3))} ${display}` };
}
