// One plane of the survey, to scale: barriers lowest, then features, units, dimension lines, and
// marks on top, so that nothing measured is covered.
import { drawDimension, drawMark } from "./draw-dimension.ts";
import { drawFeature } from "./draw-feature.ts";
import type { Mark } from "./draw-marks.ts";
import { takeFree } from "./draw-room-left.ts";
import { type Box, type PlaneFrame, scaleBarLength } from "./draw-scale.ts";
import { drawFeatureTag, drawUnit, tagPatch } from "./draw-thing.ts";
import { lengthText } from "./finding.ts";
import type { Survey, SurveyFeature, SurveyUnit } from "./survey.ts";
import { BREACH, drawn, element, INK, textElement } from "./svg.ts";

/** Short names (`U1`, `F3`) by id: surveyors' names are too long to write into small rectangles. */
export type Tags = ReadonlyMap<string, string>;

interface Layers {
  line: string;
  over: string;
}

/** Everything that belongs on one plane. */
export function drawPlane(
  frame: PlaneFrame,
  survey: Survey,
  marks: readonly Mark[],
  tags: Tags,
  hatchId: string,
): string {
  const here = (thing: SurveyUnit | SurveyFeature) => thing.planeId === frame.plane.id;
  const features = survey.features.filter(here);
  const barriers = features.filter((feature) => feature.kind === "barrier");
  const ordered = [...barriers, ...features.filter((feature) => feature.kind !== "barrier")];
  const units = survey.units.filter(here);
  const taken = [...units, ...features].map((one) => tagPatch(frame.box(one), one));
  const layers = marks.map((mark) => drawOnPlane(frame, survey, mark, taken));
  return [
    drawGround(frame),
    ...ordered.map((one) => drawFeature(one, frame.box(one), hatchId)),
    ...ordered.map((one) => drawFeatureTag(frame.box(one), one, tags.get(one.id) ?? "")),
    ...units.map((unit) => drawUnit(frame.box(unit), unit, tags.get(unit.id) ?? "")),
    ...layers.map(({ line }) => line),
    ...layers.map(({ over }) => over),
    drawScaleBar(frame, survey.displayLength),
  ].join("");
}

function drawGround(frame: PlaneFrame): string {
  const box = frame.box({ xMm: 0, yMm: 0, ...frame.plane });
  const faint = { stroke: INK, "stroke-width": 1, "stroke-opacity": 0.5 };
  const outline = element("rect", { ...box, ...faint });
  if (frame.plane.view === "plan") return outline;
  const y = drawn(box.y + box.height);
  const count = Math.floor(box.width / 16);
  const hatch = Array.from(
    { length: count },
    (_, at) => `M${drawn(at * 16 + 8 + box.x)} ${y}l-8 8`,
  );
  return (
    outline +
    element("path", { d: hatch.join(""), ...faint }) +
    element("path", {
      d: `M${drawn(box.x)} ${y}h${drawn(box.width)}`,
      stroke: INK,
      "stroke-width": 2.5,
    })
  );
}

function drawOnPlane(frame: PlaneFrame, survey: Survey, mark: Mark, taken: Box[]): Layers {
  const { finding, number } = mark;
  const nothing = { line: "", over: "" };
  const { zone } = finding;
  if (zone && finding.verdict !== "meets" && zone.planeId === frame.plane.id) {
    const style = { stroke: BREACH, "stroke-width": 2, "stroke-dasharray": "3 5" };
    const box = frame.box(zone);
    const corners = [box.x + box.width, box.x].flatMap((x) => [
      { x, y: box.y },
      { x, y: box.y + box.height },
    ]);
    const at = takeFree(taken, corners, { width: 28, height: 28 });
    return {
      line: element("rect", { ...box, ...style }),
      over: drawMark(at, number, finding.verdict),
    };
  }
  const [from, to] = finding.between.map((id) =>
    [...survey.units, ...survey.features].find((one) => one.id === id),
  );
  if (from?.planeId !== frame.plane.id || finding.verdict === "needs-survey") return nothing;
  if (finding.direction && to?.planeId === frame.plane.id) {
    const label = lengthText(finding.measured ?? 0, survey.displayLength);
    return drawDimension(frame, finding, { from, to }, { ...mark, label }, taken);
  }
  // Several rules may be broken by one unit without a distance: their marks stand in a row.
  const box = frame.box(from);
  const at = { x: box.x + mark.row * 30, y: box.y };
  return { line: "", over: drawMark(at, number, finding.verdict) };
}

function drawScaleBar(frame: PlaneFrame, display: "mm" | "in"): string {
  const bar = scaleBarLength(frame.scale, display);
  const { x, y } = frame.point(0, 0);
  const top = y + 22;
  return (
    element("rect", { x, y: top, width: bar.width / 2, height: 6, fill: INK }) +
    element("rect", { x, y: top, width: bar.width, height: 6, stroke: INK, "stroke-width": 1 }) +
    textElement(x + bar.width + 8, top + 8, bar.text, { "font-size": 13 })
  );
}
