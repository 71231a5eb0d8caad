import geographiclib from "geographiclib-geodesic";
import { describe, expect, test } from "vitest";
import { geodesicM, haversineM } from "../../../src/domain/rounds/geodesic.ts";
import { estimatedTravel } from "../../../src/domain/rounds/travel.ts";
import { chanceOf } from "../../support/chance.ts";

const at = (latitudeDeg: number, longitudeDeg: number) => ({ latitudeDeg, longitudeDeg });
const dms = (degrees: number, minutes: number, seconds: number): number =>
  degrees + minutes / 60 + seconds / 3600;

describe("geodesic distance on WGS 84 (Vincenty 1975)", () => {
  test("the sample line Flinders Peak to Buninyong (Geoscience Australia) is 54 972.271 m", () => {
    const flindersPeak = at(-dms(37, 57, 3.7203), dms(144, 25, 29.5244));
    const buninyong = at(-dms(37, 39, 10.1561), dms(143, 55, 35.3839));
    expect(geodesicM(flindersPeak, buninyong)).toBeCloseTo(54_972.271, 3);
  });

  test.each([
    [
      "40.6 -73.8 to 51.6 -0.5 (example of GeographicLib)",
      at(40.6, -73.8),
      at(51.6, -0.5),
      5_551_759.4,
    ],
    ["one degree north at the equator", at(0, 0), at(1, 0), 110_574.389],
    ["one degree east at the equator", at(0, 0), at(0, 1), 111_319.491],
    ["over the date line", at(0, 179.5), at(0, -179.5), 111_319.491],
  ])("%s", (_, from, to, metres) => {
    expect(geodesicM(from, to)).toBeCloseTo(metres, 2);
    expect(geodesicM(to, from)).toBeCloseTo(metres, 2);
  });

  test("2,000 random lines agree with GeographicLib (Karney 2013) to a millimetre", () => {
    const chance = chanceOf(11);
    const degrees = (most: number): number => (chance.share() * 2 - 1) * most;
    for (let line = 0; line < 2000; line += 1) {
      const from = at(degrees(89), degrees(180));
      const to = at(
        from.latitudeDeg + degrees(line % 2 ? 0.5 : 40),
        from.longitudeDeg + degrees(60),
      );
      if (Math.abs(to.latitudeDeg) > 90) continue;
      const exact = geographiclib.Geodesic.WGS84.Inverse(
        ...[from.latitudeDeg, from.longitudeDeg, to.latitudeDeg, to.longitudeDeg],
      ).s12;
      expect(Math.abs(geodesicM(from, to) - exact!)).toBeLessThan(0.001);
    }
  });

  test("nearly antipodal points, where Vincenty does not settle, stay within 0.6 %", () => {
    const exact = 19_959_679.267; // Karney's example -41.32 174.81 to 40.96 -5.50
    expect(geodesicM(at(-41.32, 174.81), at(40.96, -5.5)) / exact).toBeCloseTo(1, 2);
    const antipodes = geodesicM(at(0, 0), at(0.1, 179.9));
    const karney = geographiclib.Geodesic.WGS84.Inverse(0, 0, 0.1, 179.9).s12!;
    expect(Math.abs(antipodes / karney - 1)).toBeLessThan(0.006);
  });

  test("a point is nowhere from itself, and nothing is not a number", () => {
    for (const point of [at(0, 0), at(90, 0), at(-90, 12), at(51.5, -0.1)]) {
      expect(geodesicM(point, point)).toBe(0);
    }
    expect(geodesicM(at(90, 0), at(90, 120))).toBeLessThan(0.001);
  });

  test.each([
    [at(40.6, -73.8), at(51.6, -0.5), 5_536_891.988],
    [at(0, 0), at(1, 0), 111_195.08],
    [at(51.5074, -0.1278), at(52.4862, -1.8904), 162_496.07],
  ])("the haversine from %o to %o with R 6371.0088 km", (from, to, metres) => {
    expect(haversineM(from, to)).toBeCloseTo(metres, 1);
  });
});

describe("estimated travel (circuity: Ballou, Rahardja and Sakai 2002, from memory)", () => {
  test("50 km at circuity 1.3 and 60 km/h take 65 minutes", () => {
    const places = [at(0, 0), at(0, 50_000 / 111_319.491)];
    const { minutes, distanceM } = estimatedTravel(places, { circuity: 1.3, speedKmPerH: 60 });
    expect(minutes[0]![1]).toBeCloseTo(65, 4);
    expect(distanceM[1]![0]).toBeCloseTo(65_000, 1);
    expect(minutes[0]![0]).toBe(0);
  });

  test.each([
    { circuity: 0.99, speedKmPerH: 60 },
    { circuity: Number.NaN, speedKmPerH: 60 },
    { circuity: 1.3, speedKmPerH: 0 },
    { circuity: 1.3, speedKmPerH: Number.POSITIVE_INFINITY },
  ])("with %o nothing is estimated", (estimate) => {
    expect(() => estimatedTravel([], estimate)).toThrow(RangeError);
  });
});
