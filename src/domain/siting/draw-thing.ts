// Units and the short names of things. A battery has a double outline, other equipment a single
// one; a tag stands where it does not cover the figure it names.
import type { Box } from "./draw-scale.ts";
import type { SurveyFeature, SurveyUnit } from "./survey.ts";
import { element, HALO, INK, PAPER, shorten, textElement } from "./svg.ts";

/** A unit with its tag, and its name where there is room for it. */
export function drawUnit(box: Box, unit: SurveyUnit, tag: string): string {
  const inset = Math.min(4, box.width / 5, box.height / 5);
  const inner = {
    x: box.x + inset,
    y: box.y + inset,
    width: box.width - 2 * inset,
    height: box.height - 2 * inset,
  };
  const name = shorten(unit.name, Math.floor(box.width / 8));
  const centre = box.x + box.width / 2;
  const roomForName = box.width > 56 && box.height > 48;
  return element(
    "g",
    { class: `siting-${unit.role}` },
    element("rect", { ...box, fill: PAPER, stroke: INK, "stroke-width": 2.5 }),
    unit.role === "battery" ? element("rect", { ...inner, stroke: INK, "stroke-width": 1 }) : "",
    drawTag(roomForName ? { ...box, height: box.height - 16 } : box, tag, 700),
    roomForName
      ? textElement(centre, box.y + box.height / 2 + 16, name, {
          "text-anchor": "middle",
          "font-size": 12,
        })
      : "",
  );
}

/** A barrier is named in its lower left corner (units hide its middle), small figures above. */
export function drawFeatureTag(box: Box, feature: SurveyFeature, tag: string): string {
  return feature.kind === "barrier"
    ? textElement(box.x + 4, box.y + box.height - 4, tag, HALO)
    : drawTag(tagRoom(box, feature), tag);
}

/** Where the tag of a thing stands; marks keep off it. */
export function tagPatch(box: Box, thing: SurveyFeature | SurveyUnit): Box {
  const room = "kind" in thing ? tagRoom(box, thing) : box;
  const width = "kind" in thing ? 26 : Math.min(box.width, 60);
  const x = box.x + (box.width - width) / 2;
  if (!fitsInside(room)) return { x, y: box.y - 20, width, height: 20 };
  return { x, y: box.y + box.height / 2 - 20, width, height: 40 };
}

function tagRoom(box: Box, feature: SurveyFeature): Box {
  const covered = ["ignition-source", "stored-flammables", "vent"].includes(feature.kind);
  return covered ? { ...box, height: 0 } : box;
}

function fitsInside(box: Box): boolean {
  return box.width >= 26 && box.height >= 18;
}

function drawTag(box: Box, tag: string, weight = 400): string {
  const y = fitsInside(box) ? box.y + box.height / 2 + 5 : box.y - 5;
  const style = { ...HALO, "text-anchor": "middle", "font-weight": weight };
  return textElement(box.x + box.width / 2, y, tag, style);
}
