import { describe, expect, test } from "vitest";
import { drawPlaces, type Place } from "../../../src/domain/charts/place-chart.ts";
import { scaleTo } from "../../../src/domain/charts/scale.ts";
import { drawStepChart } from "../../../src/domain/charts/step-chart.ts";
import { drawMap, tilePlace } from "../../../src/domain/charts/tile-map.ts";

test.each([
  [0, 6, [0, 0.2, 0.4, 0.6, 0.8, 1]],
  [3, 6, [0, 0.5, 1, 1.5, 2, 2.5, 3]],
  [7, 6, [0, 2, 4, 6, 8]],
  [50, 5, [0, 10, 20, 30, 40, 50]],
  [51, 6, [0, 10, 20, 30, 40, 50, 60]],
  [199_999, 6, [0, 50_000, 100_000, 150_000, 200_000]],
])("a scale to %d has round marks that enclose it (steps 1, 2, 5: ISO 3)", (most, count, marks) => {
  expect(scaleTo(most, count).marks).toEqual(marks);
});

test("steps stay level until the next day and rise there", () => {
  const svg = drawStepChart({
    title: "Levels",
    days: ["2026-01-01", "2026-01-08", "2026-01-15"],
    series: [{ name: "2.4.0 <new>", values: [0, 5, 10] }],
    outOf: 10,
  });
  const [, path = ""] = /<path d="([^"]+)"/.exec(svg) ?? [];
  // 554 px across, 232 px up: 5 of 10 stands half way.
  expect(path).toBe("M56 246 H333 V130 H610 V14");
  expect(svg).toContain("2.4.0 &lt;new&gt;");
  expect(svg).not.toContain("<new>");
});

const place = (latitude: number, longitude: number, more: Partial<Place> = {}): Place => ({
  ...{ latitude, longitude, sites: 1, standing: "fine", name: "S" },
  ...more,
});

test("distances are alike both ways: a degree of longitude at 60° is half as wide (cosine)", () => {
  const svg = drawPlaces([place(59.5, 10), place(60.5, 10), place(60, 9), place(60, 11)], "Sites");
  const centres = [...svg.matchAll(/cx="([\d.]+)" cy="([\d.]+)"/g)].map(([, x, y]) => [
    Number(x),
    Number(y),
  ]);
  const [south = [0, 0], north = [0, 0], west = [0, 0], east = [0, 0]] = centres;
  const high = (south[1] ?? 0) - (north[1] ?? 0);
  const wide = (east[0] ?? 0) - (west[0] ?? 0);
  expect(high).toBeCloseTo(460 - 2 * 34, 1);
  expect(wide / high).toBeCloseTo(1, 2);
});

test("how a site stands is told by shape, and names cannot break out", () => {
  const svg = drawPlaces(
    [
      place(50, 1, { standing: "overdue", name: '"><script>' }),
      place(51, 1, { standing: "due", href: "/sites/1?a=1&b=2" }),
      place(52, 1),
    ],
    "Sites",
  );
  expect(svg.match(/<circle/g)).toHaveLength(1);
  expect(svg.match(/<path d="M[\d. ]+ L[^"]+Z"/g)).toHaveLength(2);
  expect(svg).not.toContain("<script>");
  expect(svg).toContain('href="/sites/1?a=1&amp;b=2"');
});

test("what a drawing is about is a square; with links it is a group (WAI-ARIA 1.2)", () => {
  const here = place(50, 1, { standing: "here" });
  const size = { width: 420, height: 280 };
  const alone = drawPlaces([here], "Sites", size);
  expect(alone).toMatch(/viewBox="0 0 420 280" role="img"/);
  // In the middle of the drawing: 5 × 1.2 to either side.
  expect(alone).toContain('<rect x="204" y="134" width="12" height="12"');
  const linked = drawPlaces([here, place(51, 1, { standing: "near", href: "/sites/2" })], "Sites");
  expect(linked).toMatch(/role="group"/);
});

describe("tiles of a map", () => {
  /** Metres east and north of the origin that a tile's place stands for (EPSG:3857). */
  const metres = (latitude: number, longitude: number) => {
    const { column, row } = tilePlace(latitude, longitude, 0);
    const round = 2 * Math.PI * 6378137;
    return [(column - 0.5) * round, (0.5 - row) * round];
  };

  test("are placed as the worked example of EPSG guidance note 7-2 has it (from memory)", () => {
    const [east = 0, north = 0] = metres(24 + 22 / 60 + 54.433 / 3600, -(100 + 20 / 60));
    expect(east).toBeCloseTo(-11_169_055.58, 1);
    expect(north).toBeCloseTo(2_800_000, 1);
  });

  test.each([
    [0, 0, 0, 0.5, 0.5],
    [0, -180, 1, 0, 1],
    [85.05112877980659, 0, 0, 0.5, 0],
    [-90, 179.999999, 0, 1, 1],
  ])("%d, %d at zoom %d is at %d, %d (WebMercatorQuad, OGC 17-083r4)", (lat, lon, zoom, x, y) => {
    const place = tilePlace(lat, lon, zoom);
    expect(place.column).toBeCloseTo(x, 6);
    expect(place.row).toBeCloseTo(y, 6);
  });

  test("are as many as cover the drawing, go round the world, and stop at its poles", () => {
    const wish = { zoom: 2, template: "https://t.example/{z}/{x}/{y}.png", title: "S-1" };
    const svg = drawMap({ ...wish, latitude: 84, longitude: -179.9 });
    const tiles = [...svg.matchAll(/\/2\/(\d+)\/(\d+)\.png/g)].map(([, x, y]) => [
      Number(x),
      Number(y),
    ]);
    expect(tiles.every(([x = 9, y = 9]) => x < 4 && y < 4)).toBe(true);
    expect(tiles.some(([x]) => x === 3)).toBe(true);
    expect(tiles.length).toBeGreaterThanOrEqual(3);
    expect(drawMap({ ...wish, latitude: 0, longitude: 0, template: 'x"{z}{x}{y}' })).not.toContain(
      'x"2',
    );
  });
});
