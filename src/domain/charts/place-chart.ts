// Requirement: where the sites are and how they stand is seen at a glance without any map service:
// an equirectangular drawing with a scale bar, marks that differ in shape as well as in colour.
import { at, drawing, escaped } from "./svg.ts";

export interface Place {
  latitude: number;
  longitude: number;
  /** How many sites this mark stands for. */
  sites: number;
  /** "here" is the one place that the drawing is about, "near" what stands around it. */
  standing: "due" | "overdue" | "fine" | "here" | "near";
  name: string;
  href?: string;
}

/** Of the drawing, in its own units. */
export interface ChartSize {
  width: number;
  height: number;
}

const USUAL: ChartSize = { width: 760, height: 460 };
const EDGE = 34;
/** Length of a degree of latitude on the mean sphere of 6,371.0088 km (IUGG), in km. */
const KM_A_DEGREE = (Math.PI * 6371.0088) / 180;

/** The drawing as an SVG 1.1 element; an empty list draws nothing but its frame. */
export function drawPlaces(places: readonly Place[], title: string, size = USUAL): string {
  const frame = frameOf(places, size);
  const marks = places
    .toSorted((left, right) => right.sites - left.sites)
    .map((place) => markOf(place, frame));
  const border =
    `<rect x="0.5" y="0.5" width="${size.width - 1}" height="${size.height - 1}" fill="none" ` +
    'stroke="currentColor" stroke-opacity="0.25"/>';
  return drawing(size.width, size.height, title, [border, ...marks, scaleBar(frame, size)]);
}

interface Frame {
  across(longitude: number): number;
  up(latitude: number): number;
  pixelsAKm: number;
}

/** Scaled alike both ways; a degree of longitude is shortened by the cosine of the latitude. */
function frameOf(places: readonly Place[], { width, height }: ChartSize): Frame {
  const latitudes = places.map(({ latitude }) => latitude);
  const longitudes = places.map(({ longitude }) => longitude);
  const [south, north] = [least(latitudes), greatest(latitudes)];
  const [west, east] = [least(longitudes), greatest(longitudes)];
  const shortened = Math.cos((((south + north) / 2) * Math.PI) / 180);
  const wideKm = Math.max((east - west) * shortened * KM_A_DEGREE, 1);
  const highKm = Math.max((north - south) * KM_A_DEGREE, 1);
  const pixelsAKm = Math.min((width - 2 * EDGE) / wideKm, (height - 2 * EDGE) / highKm);
  const middle = { latitude: (south + north) / 2, longitude: (west + east) / 2 };
  return {
    across: (longitude) =>
      width / 2 + (longitude - middle.longitude) * shortened * KM_A_DEGREE * pixelsAKm,
    up: (latitude) => height / 2 - (latitude - middle.latitude) * KM_A_DEGREE * pixelsAKm,
    pixelsAKm,
  };
}

const least = (values: readonly number[]): number =>
  values.reduce((a, b) => Math.min(a, b), values[0] ?? 0);
const greatest = (values: readonly number[]): number =>
  values.reduce((a, b) => Math.max(a, b), values[0] ?? 0);

function markOf(place: Place, frame: Frame): string {
  const x = frame.across(place.longitude);
  const y = frame.up(place.latitude);
  const size = 5 + 3 * Math.log2(Math.max(place.sites, 1));
  const shape = shapeOf(place.standing, x, y, size);
  const named = `<title>${escaped(place.name)}</title>`;
  const paint = `fill="${COLOURS[place.standing]}" stroke="var(--card, #fff)" stroke-width="1.2"`;
  const mark = `<g ${paint}>${shape}${named}</g>`;
  return place.href ? `<a href="${escaped(place.href)}">${mark}</a>` : mark;
}

const COLOURS = {
  overdue: "var(--bad, #9b2418)",
  due: "var(--warn, #7a5100)",
  fine: "var(--good, #1f6a3a)",
  here: "var(--link, #0f5f5b)",
  near: "var(--soft, #55605f)",
} as const;

/** Overdue is a diamond, due a triangle, here a square, and a disc what needs nothing. */
function shapeOf(standing: Place["standing"], x: number, y: number, size: number): string {
  if (standing === "here") {
    const side = at(size * 2.4);
    const [left, top] = [at(x - size * 1.2), at(y - size * 1.2)];
    return `<rect x="${left}" y="${top}" width="${side}" height="${side}" rx="2"/>`;
  }
  if (standing === "fine" || standing === "near")
    return `<circle cx="${at(x)}" cy="${at(y)}" r="${at(size)}"/>`;
  const top = `M${at(x)} ${at(y - size * 1.25)}`;
  if (standing === "due") {
    const corner = `L${at(x + size * 1.1)} ${at(y + size * 0.75)}`;
    return `<path d="${top} ${corner} H${at(x - size * 1.1)} Z"/>`;
  }
  const right = `L${at(x + size * 1.2)} ${at(y)}`;
  const bottom = `L${at(x)} ${at(y + size * 1.25)}`;
  return `<path d="${top} ${right} ${bottom} L${at(x - size * 1.2)} ${at(y)} Z"/>`;
}

function scaleBar({ pixelsAKm }: Frame, { height }: ChartSize): string {
  const wished = 120 / pixelsAKm;
  const power = 10 ** Math.floor(Math.log10(wished));
  const km = [5, 2, 1].map((factor) => factor * power).find((length) => length <= wished) ?? power;
  const length = km * pixelsAKm;
  const y = height - 14;
  const path = `<path d="M14 ${y - 5} V${y} H${at(14 + length)} V${y - 5}" fill="none" `;
  const text = km >= 1 ? `${km} km` : `${Math.round(km * 1000)} m`;
  const label = `<text x="${at(20 + length)}" y="${y}">${text}</text>`;
  return `${path}stroke="currentColor" stroke-width="1.5"/>${label}`;
}
