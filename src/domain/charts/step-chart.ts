// Requirement: how a count grew over time is drawn as steps, since between two readings nothing is
// known to have changed.
import { scaleTo } from "./scale.ts";
import { at, drawing, escaped, STROKES } from "./svg.ts";

export interface StepSeries {
  name: string;
  /** One for each day of `days`. */
  values: readonly number[];
}

export interface StepChart {
  /** What the drawing is called for those who do not see it. */
  title: string;
  /** Plain dates, the first one first, evenly apart. */
  days: readonly string[];
  series: readonly StepSeries[];
  /** Drawn as a line across: what all the counts are out of. */
  outOf?: number;
}

const WIDTH = 760;
const HEIGHT = 280;
const LEFT = 56;
const RIGHT = 150;
const TOP = 14;
const BOTTOM = 34;
const DAYS_MARKED = 6;

/** The chart as an SVG 1.1 element with a title; at most six series are told apart. */
export function drawStepChart({ title, days, series, outOf }: StepChart): string {
  const most = Math.max(outOf ?? 0, ...series.flatMap(({ values }) => values));
  const scale = scaleTo(most);
  const across = (index: number): number =>
    LEFT + (days.length < 2 ? 0 : (index / (days.length - 1)) * (WIDTH - LEFT - RIGHT));
  const up = (value: number): number =>
    HEIGHT - BOTTOM - (value / scale.most) * (HEIGHT - TOP - BOTTOM);
  const parts = [
    ...scale.marks.map((mark) => rule(up(mark), String(mark))),
    ...dayMarks(days).map((index) => dayMark(across(index), days[index] ?? "")),
    ...(outOf === undefined ? [] : [total(up(outOf))]),
    ...series.slice(0, STROKES.length).flatMap((one, index) => line(one, index, across, up)),
  ];
  return drawing(WIDTH, HEIGHT, title, parts);
}

const rule = (y: number, text: string): string =>
  `<line ${across(y)} stroke="currentColor" stroke-opacity="0.18"/>` +
  `<text x="${LEFT - 8}" y="${at(y + 4)}" text-anchor="end">${text}</text>`;

const dayMark = (x: number, day: string): string =>
  `<text x="${at(x)}" y="${HEIGHT - 12}" text-anchor="middle">${escaped(day)}</text>`;

const total = (y: number): string =>
  `<line ${across(y)} stroke="currentColor" stroke-dasharray="3 3"/>`;

const across = (y: number): string =>
  `x1="${LEFT}" x2="${WIDTH - RIGHT}" y1="${at(y)}" y2="${at(y)}"`;

function dayMarks(days: readonly string[]): number[] {
  const step = Math.max(1, Math.ceil(days.length / DAYS_MARKED));
  return days.flatMap((_, index) => (index % step === 0 ? [index] : []));
}

function line(
  { name, values }: StepSeries,
  index: number,
  across: (index: number) => number,
  up: (value: number) => number,
): string[] {
  const [first = 0] = values;
  const steps = values
    .slice(1)
    .map((value, place) => `H${at(across(place + 1))} V${at(up(value))}`)
    .join(" ");
  const { colour, dash } = STROKES[index % STROKES.length] ?? STROKES[0];
  const dashes = dash === "" ? "" : ` stroke-dasharray="${dash}"`;
  const stroke = `stroke="${colour}" stroke-width="2.5"${dashes}`;
  const labelY = TOP + 12 + index * 22;
  const labelX = WIDTH - RIGHT + 14;
  return [
    `<path d="M${at(across(0))} ${at(up(first))} ${steps}" fill="none" ${stroke}>` +
      `<title>${escaped(name)}</title></path>`,
    `<line x1="${labelX}" x2="${labelX + 28}" y1="${labelY - 4}" y2="${labelY - 4}" ${stroke}/>`,
    `<text x="${labelX + 34}" y="${labelY}">${escaped(name)}</text>`,
  ];
}
