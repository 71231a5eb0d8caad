import { describe, expect, test } from "vitest";
import { drawRounds } from "../../../src/domain/rounds/draw-rounds.ts";
import { planRounds } from "../../../src/domain/rounds/plan-rounds.ts";
import { clockText, roundsTable, tableText } from "../../../src/domain/rounds/rounds-table.ts";
import { estimatedTravel } from "../../../src/domain/rounds/travel.ts";

const PLACES = [
  { latitudeDeg: 52, longitudeDeg: -1 },
  { latitudeDeg: 52.1, longitudeDeg: -1 },
  { latitudeDeg: 52, longitudeDeg: -0.8 },
  { latitudeDeg: 52.05, longitudeDeg: -1.1 },
];
const crew = { id: "c", label: "North & East", startPlace: 0, endPlace: 0 };
const visit = (place: number, label: string, skills: string[] = []) => ({
  id: `v${place}`,
  label,
  place,
  workMin: 45,
  skills,
});
const planned = planRounds(
  {
    crewDays: [{ ...crew, startsMin: 480, endsMin: 960 }],
    visits: [visit(1, "Elm <1>"), visit(2, 'The "Mill"'), visit(3, "Far Barn", ["roof"])],
    travel: estimatedTravel(PLACES),
  },
  { iterations: 100, seed: 1 },
);
if (!planned.ok) throw new Error(planned.problem);
const { plan } = planned;

describe("the picture", () => {
  const svg = drawRounds(plan, PLACES);

  test("is well formed, names itself and fetches nothing", () => {
    expect(svg).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg" .* role="img"/);
    expect(svg.match(/<title/g)).toHaveLength(1 + 1 + 2 + 1);
    expect(svg).not.toMatch(/href|url\(|<image|<script|<foreignObject/);
    const opened = [...svg.matchAll(/<(\w+)[^>]*?(\/?)>/g)].filter(([, , closed]) => closed === "");
    expect(opened.map(([, name]) => name).sort()).toEqual(
      [...svg.matchAll(/<\/(\w+)>/g)].map(([, name]) => name).sort(),
    );
  });

  test("escapes what people typed", () => {
    expect(svg).toContain("Elm &lt;1&gt;");
    expect(svg).toContain("The &quot;Mill&quot;");
    expect(svg).toContain("North &amp; East");
  });

  test("numbers the stops as the table does", () => {
    const numbers = [...svg.matchAll(/>(\d+\.\d+)<\/text>/g)].map(([, number]) => number);
    const inTable = roundsTable(plan).rows.map((row) => row[1]!);
    expect(numbers).toEqual(inTable.filter((cell) => cell.includes(".")));
    expect(svg).toContain("Left out: Far Barn");
  });

  test("has north up, and east as long as it is (cosine of the latitude)", () => {
    const marks = [
      ...svg.matchAll(/<title>1\.\d ([^<]*)<\/title><circle cx="([\d.]+)" cy="([\d.]+)"/g),
    ];
    const at = new Map(marks.map(([, label, x, y]) => [label, { x: Number(x), y: Number(y) }]));
    const base = /<rect x="([\d.]+)" y="([\d.]+)"/.exec(svg)!;
    const [x, y] = [Number(base[1]) + 7, Number(base[2]) + 7];
    const north = at.get("Elm &lt;1&gt;")!;
    const east = at.get("The &quot;Mill&quot;")!;
    expect(north.y).toBeLessThan(y);
    expect(north.x).toBeCloseTo(x, 0);
    expect(east.x).toBeGreaterThan(x);
    const ratio = (east.x - x) / (y - north.y);
    expect(ratio).toBeCloseTo((0.2 * Math.cos((52.05 * Math.PI) / 180)) / 0.1, 2);
  });

  test("of one place alone, or of nothing, is still a picture", () => {
    const alone = { ...plan, rounds: [], leftOut: plan.leftOut };
    expect(drawRounds(alone, PLACES)).not.toContain("NaN");
    expect(drawRounds({ ...alone, leftOut: [] }, PLACES)).not.toMatch(/NaN|Infinity/);
  });

  test("of a place that has no position is a bug and throws", () => {
    expect(() => drawRounds(plan, PLACES.slice(0, 2))).toThrow(RangeError);
  });
});

describe("the table", () => {
  test("has a row a stop, one home and one for what is left out", () => {
    const { columns, rows } = roundsTable(plan);
    expect(rows.every((row) => row.length === columns.length)).toBe(true);
    expect(rows.map((row) => row[1])).toEqual(["1.1", "1.2", "end", ""]);
    expect(rows.at(-1)?.slice(0, 3)).toEqual(["left out", "", "Far Barn"]);
  });

  test("stands in columns as text", () => {
    const lines = tableText(roundsTable(plan)).split("\n");
    expect(lines).toHaveLength(5);
    const at = lines[0]!.indexOf("Site");
    expect(lines[1]!.slice(at)).toMatch(/^(Elm|The)/);
    expect(lines[2]!.slice(at)).toMatch(/^(Elm|The)/);
  });

  test.each([
    [0, "00:00"],
    [485.4, "08:05"],
    [485.5, "08:06"],
    [1439.4, "23:59"],
    [1439.5, "day 2 00:00"],
    [1925, "day 2 08:05"],
  ])("minute %d reads %s", (minutes, text) => {
    expect(clockText(minutes)).toBe(text);
  });
});
