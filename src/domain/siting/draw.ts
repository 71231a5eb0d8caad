// The picture of a survey with its findings, to scale, for the screen, the printed page and the
// record. It stands on its own in black and white and for those who only hear it.

import { drawMark } from "./draw-dimension.ts";
import { hatchPattern } from "./draw-feature.ts";
import { chooseMarks, type Mark } from "./draw-marks.ts";
import { drawPlane, type Tags } from "./draw-plane.ts";
import { commonScale, MARGIN, PAGE_WIDTH, placePlane } from "./draw-scale.ts";
import { type Finding, lengthText } from "./finding.ts";
import { SITING_CAUTION } from "./judge.ts";
import type { Survey, SurveyPlane } from "./survey.ts";
import { safeId, shorten, svgDocument, textElement, textLines, wrapText } from "./svg.ts";
import { plainWords } from "./vocabulary.ts";

const LINE = 20;
const LINE_LETTERS = 112;
const WORDS = { breaks: "Breaks", "needs-survey": "Needs survey", meets: "Met" } as const;

/**
 * Draws every plane of the survey with dimension lines, marks and a key.
 * @param findings what `judgeSiting` found for this survey.
 * @param idPrefix keeps ids unique where a page shows several drawings.
 * @returns SVG text, 960 units wide; names are escaped, colours follow the page.
 */
export function drawSiting(
  survey: Survey,
  findings: readonly Finding[],
  idPrefix = "siting",
): string {
  const marks = chooseMarks(findings);
  const tags = tagThings(survey);
  const hatchId = `${safeId(idPrefix)}-hatch`;
  const parts = [hatchPattern(hatchId), heading(survey.title, 34)];
  let top = 60;
  for (const plane of survey.planes) {
    const scale = commonScale(survey);
    const frame = placePlane(plane, scale, MARGIN, top + 44);
    parts.push(planeHeading(survey, plane, top + 16));
    parts.push(drawPlane(frame, survey, marks, tags, hatchId));
    top += 44 + plane.heightMm * scale + 64;
  }
  const key = drawKey(survey, marks, tags, findings.length, top);
  const frame = {
    width: PAGE_WIDTH,
    height: key.bottom + 24,
    title: `Siting drawing: ${survey.title}`,
    description: describe(survey, findings),
    idPrefix,
  };
  return svgDocument(frame, ...parts, key.svg);
}

function tagThings(survey: Survey): Tags {
  return new Map([
    ...survey.units.map((unit, at) => [unit.id, `U${at + 1}`] as const),
    ...survey.features.map((feature, at) => [feature.id, `F${at + 1}`] as const),
  ]);
}

function heading(text: string, y: number): string {
  return textElement(MARGIN, y, shorten(text, 80), { "font-size": 20, "font-weight": 700 });
}

function planeHeading(survey: Survey, plane: SurveyPlane, y: number): string {
  const room = survey.rooms.find(({ id }) => id === plane.roomId)?.name ?? "";
  const view = plane.view === "plan" ? "seen from above" : "seen from the front";
  const size =
    `${lengthText(plane.widthMm, survey.displayLength)} × ` +
    `${lengthText(plane.heightMm, survey.displayLength)}`;
  const text = `${shorten(plane.name, 40)}, ${shorten(room, 30)}, ${view}, ${size}`;
  return textElement(MARGIN, y, text, { "font-size": 15 });
}

function drawKey(
  survey: Survey,
  marks: readonly Mark[],
  tags: Tags,
  findingCount: number,
  top: number,
): { svg: string; bottom: number } {
  const parts: string[] = [];
  let y = top;
  const writeLines = (text: string, left: number) => {
    const lines = wrapText(text, LINE_LETTERS);
    parts.push(...textLines(left, y, lines, LINE));
    y += lines.length * LINE;
  };
  for (const { number, finding } of marks) {
    parts.push(drawMark({ x: MARGIN + 14, y: y - 5 }, number, finding.verdict));
    const word = finding.verdict === "not-applicable" ? "" : WORDS[finding.verdict];
    writeLines(`${word}: ${finding.sentence} (${finding.source}, ${finding.edition})`, MARGIN + 40);
    y += 14;
  }
  if (findingCount > marks.length) {
    writeLines(`${findingCount - marks.length} further findings are in the list.`, MARGIN);
  }
  y += 8;
  writeLines(tagList(survey, tags), MARGIN);
  y += 8;
  writeLines(SITING_CAUTION, MARGIN);
  return { svg: parts.join(""), bottom: y };
}

function tagList(survey: Survey, tags: Tags): string {
  const units = survey.units.map((unit) => {
    const energy = unit.energyKWh === undefined ? "" : `, ${unit.energyKWh} kWh`;
    return `${tags.get(unit.id)} ${unit.name} (${unit.role}${energy})`;
  });
  const features = survey.features.map(
    (feature) => `${tags.get(feature.id)} ${feature.name} (${plainWords(feature.kind)})`,
  );
  return [...units, ...features].join(" · ");
}

function describe(survey: Survey, findings: readonly Finding[]): string {
  const breaches = findings.filter((one) => one.verdict === "breaks");
  const open = findings.filter((one) => one.verdict === "needs-survey").length;
  const start =
    `${survey.planes.length} planes, ${survey.units.length} units and ` +
    `${survey.features.length} features, to scale. ${breaches.length} checks break a ` +
    `rule, ${open} need more survey.`;
  const list = breaches.slice(0, 10).map((one) => one.sentence);
  return [start, ...list].join(" ");
}
