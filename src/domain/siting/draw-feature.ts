// Each kind of feature has its own figure, so that a drawing reads without colour. The figures are
// ours; the barrier's hatch and the boundary's dash-dot follow drawing-office custom.
import type { Box } from "./draw-scale.ts";
import type { SurveyFeature } from "./survey.ts";
import { type Attributes, drawn, element, INK } from "./svg.ts";
import type { FeatureKind } from "./vocabulary.ts";

const thin: Attributes = { stroke: INK, "stroke-width": 1.2 };
const outline: Attributes = { stroke: INK, "stroke-width": 1.8 };

function line(x1: number, y1: number, x2: number, y2: number, more: Attributes = thin): string {
  return element("line", { x1, y1, x2, y2, ...more });
}

function frame(box: Box, more: Attributes = outline): string {
  return element("rect", { ...box, ...more });
}

function door(box: Box): string {
  const { x, y, width, height } = box;
  const swing =
    `M${drawn(x + width)} ${drawn(y)}L${drawn(x)} ` +
    `${drawn(y + height / 2)}L${drawn(x + width)} ${drawn(y + height)}`;
  return (
    frame(box) +
    element("path", { d: swing, ...thin, "stroke-dasharray": "6 4", "stroke-opacity": 0.6 }) +
    element("circle", { cx: x + width * 0.12, cy: y + height * 0.5, r: 3, fill: INK })
  );
}

function window(box: Box): string {
  const { x, y, width, height } = box;
  return (
    frame(box, { ...outline, fill: INK, "fill-opacity": 0.05 }) +
    line(x + width / 2, y, x + width / 2, y + height) +
    line(x, y + height / 2, x + width, y + height / 2)
  );
}

function vent(box: Box): string {
  const count = Math.max(2, Math.min(8, Math.floor(box.height / 6)));
  const bars = Array.from({ length: count }, (_, at) => {
    const y = box.y + ((at + 0.5) / count) * box.height;
    return line(box.x + 2, y, box.x + box.width - 2, y);
  });
  return frame(box) + bars.join("");
}

/** An opening with an arrow leading out of it. */
function exit(box: Box): string {
  const { x, y, width, height } = box;
  const middle = y + height * 0.72;
  const reach = Math.min(width, 40) * 0.35;
  const centre = x + width / 2;
  const shaft = `M${drawn(centre - reach)} ${drawn(middle)}H${drawn(centre + reach)}`;
  const arrow = `${shaft}m-8 -7l8 7l-8 7`;
  return (
    frame(box, { ...outline, "stroke-width": 3.5 }) +
    element("path", { d: arrow, ...outline, "stroke-width": 2.5 })
  );
}

function warningTriangle(box: Box, sign: "point" | "flame"): string {
  const size = Math.min(box.width, box.height, 34) * 0.8;
  const cx = box.x + box.width / 2;
  const top = box.y + box.height / 2 - size / 2;
  const triangle = `M${drawn(cx)} ${drawn(top)}l${drawn(size / 2)} ${drawn(size)}h${drawn(-size)}z`;
  const stroke =
    sign === "point"
      ? line(cx, top + size * 0.35, cx, top + size * 0.68, outline) +
        element("circle", { cx, cy: top + size * 0.83, r: 1.6, fill: INK })
      : element("path", {
          d:
            `M${drawn(cx)} ${drawn(top + size * 0.35)}q${drawn(size * 0.3)} ` +
            `${drawn(size * 0.35)} 0 ${drawn(size * 0.52)}q${drawn(-size * 0.3)} ` +
            `${drawn(-size * 0.17)} 0 ${drawn(-size * 0.52)}z`,
          fill: INK,
        });
  return frame(box) + element("path", { d: triangle, ...thin }) + stroke;
}

function appliance(box: Box): string {
  const inset = Math.min(5, box.width / 4, box.height / 4);
  const inner = {
    x: box.x + inset,
    y: box.y + inset,
    width: box.width - 2 * inset,
    height: box.height - 2 * inset,
  };
  return frame(box, { ...outline, rx: 6 }) + frame(inner, { ...thin, rx: 4 });
}

function boundary(box: Box): string {
  return frame(box, { ...outline, "stroke-dasharray": "14 4 3 4" });
}

function barrier(box: Box, hatchId: string): string {
  return frame(box, { ...thin, fill: `url(#${hatchId})` });
}

const figures: Record<FeatureKind, (box: Box, hatchId: string) => string> = {
  door,
  window,
  vent,
  exit,
  "ignition-source": (box) => warningTriangle(box, "point"),
  "stored-flammables": (box) => warningTriangle(box, "flame"),
  "unrelated-appliance": appliance,
  boundary,
  barrier,
};

/** The figure of a feature at its place on the page, to scale. */
export function drawFeature(feature: SurveyFeature, box: Box, hatchId: string): string {
  return element("g", { class: `siting-${feature.kind}` }, figures[feature.kind](box, hatchId));
}

/** Diagonal hatch for barriers. */
export function hatchPattern(id: string): string {
  const pattern = { id, width: 10, height: 10, patternUnits: "userSpaceOnUse" };
  const stroke = { d: "M0 10L10 0", stroke: INK, "stroke-width": 0.8, "stroke-opacity": 0.45 };
  return element("defs", {}, element("pattern", pattern, element("path", stroke)));
}
