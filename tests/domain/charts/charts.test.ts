import { expect, test } from "vitest";
import { drawPlaces, type Place } from "../../../src/domain/charts/place-chart.ts";
import { scaleTo } from "../../../src/domain/charts/scale.ts";
import { drawStepChart } from "../../../src/domain/charts/step-chart.ts";

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
