import { describe, expect, test } from "vitest";
import { drawTightening } from "../../../src/domain/mechanical/draw-tightening.ts";
import { circle, group } from "./sample-group.ts";

describe("the tightening drawing", () => {
  /** Turn written in each ring, by ring, with the ring's centre. */
  const turns = (svg: string) =>
    [...svg.matchAll(/<circle cx="([-\d.]+)" cy="([-\d.]+)"[^>]*\/><text[^>]*>(\d+)</g)].map(
      ([, x, y, turn]) => ({ x: Number(x), y: Number(y), turn: Number(turn) }),
    );

  test("numbers the rings by turn: the second lies opposite the first", () => {
    const rings = turns(drawTightening(group(circle(8)))).sort((a, b) => a.turn - b.turn);
    expect(rings.map(({ turn }) => turn)).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
    const [first, second] = rings;
    // A circle of 380 drawn about the middle of a page of 720.
    expect(first!.x + second!.x).toBeCloseTo(720, 0);
    expect(second!.y - first!.y).toBeCloseTo(380, 0);
  });

  test("says every pass in words, in both units, for the eye and for the ear", () => {
    const svg = drawTightening(group(circle(4)));
    // 8 N·m / 1.3558179 = 5.90 lbf·ft, 4 N·m = 2.95 lbf·ft (NIST SP 811).
    const pass = "Pass 1, 50 %: 4 N·m (2.95 lbf·ft), fasteners 1, 3, 2, 4.";
    expect(svg.split(pass)).toHaveLength(3);
    expect(svg).toMatch(/<desc[^>]*>[^<]*8 N·m \(5\.9 lbf·ft\)/);
    expect(svg).toContain("equipment&#39;s instructions govern");
  });

  test("64 fasteners on one circle have rings that do not touch", () => {
    const svg = drawTightening(group(circle(64)));
    const radius = Number(/<circle [^>]* r="([\d.]+)"/.exec(svg)?.[1]);
    const rings = turns(svg);
    expect(rings).toHaveLength(64);
    const gaps = rings.flatMap((a, at) =>
      rings.slice(at + 1).map((b) => Math.hypot(a.x - b.x, a.y - b.y)),
    );
    expect(Math.min(...gaps)).toBeGreaterThan(2 * radius);
  });

  test("a single fastener is drawn too, and names cannot become markup", () => {
    const one = circle(1, {
      name: "<b>lid</b>",
      pattern: { kind: "positions", points: [{ xMm: 3, yMm: 4 }] },
    });
    const svg = drawTightening(group(one));
    expect(turns(svg).map(({ turn }) => turn)).toEqual([1]);
    expect(svg).not.toContain("<b>");
    expect(svg).not.toContain("NaN");
  });
});
