// Requirement: rounds are seen at a glance, without map tiles from anywhere (product rule). Rounds
// differ by dashes and by the numbers of their stops as well as by colour (WCAG 2.2, 1.4.1). North
// is up; east is shortened by the cosine of the middle latitude (equirectangular projection).
import type { Position } from "./geodesic.ts";
import type { Round, RoundsPlan } from "./rounds-plan.ts";

const WIDTH = 800;
const HEIGHT = 560;
const MARGIN = 40;
const MARK_RADIUS = 11;
/** Each at least 4.5 : 1 on white (WCAG 2.2, 1.4.3), by its relative luminance. */
const COLOURS = ["#1f5fa8", "#a33a1f", "#2f6f2f", "#6b3fa0", "#7a5a00", "#9b2466"];
const DASHES = ["none", "10 4", "3 4", "14 4 3 4"];

interface Point {
  x: number;
  y: number;
}

/**
 * The plan as one SVG document of its own; `places` are the positions behind the travel table's
 * rows. Throws RangeError for a place without a position.
 */
export function drawRounds(plan: RoundsPlan, places: readonly Position[]): string {
  const shown = [
    ...plan.rounds.flatMap(({ startPlace, endPlace, stops }) => [
      ...[startPlace, endPlace],
      ...stops.map(({ place }) => place),
    ]),
    ...plan.leftOut.map(({ place }) => place),
  ];
  const pointOf = projection(shown.map((place) => positionOf(places, place)));
  const at = (place: number): Point => pointOf(positionOf(places, place));
  const parts = [
    `<title id="rounds-title">${escaped(plan.sentence)}</title>`,
    ...plan.rounds.map((round, index) => pathOf(round, index, at)),
    ...plan.rounds.map((round, index) => marksOf(round, index, at)),
    ...plan.leftOut.map(({ label, place }) => crossAt(at(place), `Left out: ${label}`)),
  ];
  const size = `viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-labelledby="rounds-title"`;
  const font = 'font-family="sans-serif" font-size="11" text-anchor="middle"';
  return `<svg xmlns="http://www.w3.org/2000/svg" ${size} ${font}>\n${parts.join("\n")}\n</svg>\n`;
}

function positionOf(places: readonly Position[], place: number): Position {
  const position = places[place];
  if (!position) throw new RangeError(`place ${place} has no position`);
  return position;
}

/** One scale for both directions, everything within the margins. */
function projection(positions: readonly Position[]): (position: Position) => Point {
  const latitudes = positions.map(({ latitudeDeg }) => latitudeDeg);
  const [south, north] = [Math.min(...latitudes), Math.max(...latitudes)];
  const shrink = Math.cos((((south + north) / 2) * Math.PI) / 180);
  const easts = positions.map(({ longitudeDeg }) => longitudeDeg * shrink);
  const [west, east] = [Math.min(...easts), Math.max(...easts)];
  const [across, up] = [WIDTH - 2 * MARGIN, HEIGHT - 2 * MARGIN];
  const scales = [across / (east - west), up / (north - south)].filter(Number.isFinite);
  const scale = scales.length > 0 ? Math.min(...scales) : 1;
  return ({ latitudeDeg, longitudeDeg }) => ({
    x: WIDTH / 2 + (longitudeDeg * shrink - (west + east) / 2) * scale,
    y: HEIGHT / 2 - (latitudeDeg - (south + north) / 2) * scale,
  });
}

function pathOf(round: Round, index: number, at: (place: number) => Point): string {
  const { startPlace, endPlace, stops } = round;
  const places = [startPlace, ...stops.map(({ place }) => place), endPlace];
  const points = places.map(at).map(({ x, y }) => `${rounded(x)} ${rounded(y)}`);
  const line = `stroke="${colourOf(index)}" stroke-width="2" stroke-dasharray="${dashOf(index)}"`;
  const name = escaped(`${index + 1} ${round.label}`);
  return `<path d="M${points.join(" L")}" fill="none" ${line}><title>${name}</title></path>`;
}

function marksOf(round: Round, index: number, at: (place: number) => Point): string {
  const { x, y } = at(round.startPlace);
  const corner = `x="${rounded(x - 7)}" y="${rounded(y - 7)}"`;
  const base = `<rect ${corner} width="14" height="14" fill="#222"/>`;
  const stops = round.stops.map((stop, number) => {
    const point = at(stop.place);
    const name = `${index + 1}.${number + 1} ${stop.label}`;
    const circle = `<circle cx="${rounded(point.x)}" cy="${rounded(point.y)}" r="${MARK_RADIUS}"`;
    const text = `<text x="${rounded(point.x)}" y="${rounded(point.y + 4)}" fill="#fff"`;
    const title = `<title>${escaped(name)}</title>`;
    const mark = `${circle} fill="${colourOf(index)}"/>${text}>${index + 1}.${number + 1}</text>`;
    return `<g>${title}${mark}</g>`;
  });
  return [base, ...stops].join("\n");
}

function crossAt({ x, y }: Point, name: string): string {
  const [left, right] = [rounded(x - 7), rounded(x + 7)];
  const [top, bottom] = [rounded(y - 7), rounded(y + 7)];
  const path = `M${left} ${top} L${right} ${bottom} M${left} ${bottom} L${right} ${top}`;
  const title = `<title>${escaped(name)}</title>`;
  return `<path d="${path}" fill="none" stroke="#222" stroke-width="3">${title}</path>`;
}

const colourOf = (index: number): string => COLOURS[index % COLOURS.length] ?? "#222";
const dashOf = (index: number): string => DASHES[index % DASHES.length] ?? "none";
const rounded = (number: number): string => String(Math.round(number * 10) / 10);

function escaped(text: string): string {
  return text
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;");
}
