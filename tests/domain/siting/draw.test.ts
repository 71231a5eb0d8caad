import { describe, expect, test } from "vitest";
import { drawSiting } from "../../../src/domain/siting/draw.ts";
import { scaleBarLength } from "../../../src/domain/siting/draw-scale.ts";
import { judgeSiting } from "../../../src/domain/siting/judge.ts";
import { AU_NZ_RULE_PACK } from "../../../src/domain/siting/rule-packs/au-nz.ts";
import type { SurveyInput } from "../../../src/domain/siting/survey.ts";
import { escapeXml, wrapText } from "../../../src/domain/siting/svg.ts";
import { pack, survey, windowAt } from "./sample-survey.ts";

function drawingOf(more: Partial<SurveyInput>): string {
  const drawn = survey(more);
  return drawSiting(drawn, judgeSiting(drawn, AU_NZ_RULE_PACK).findings);
}
const nearWindow = { features: [windowAt(6199, 200)] };
const farWindow = { features: [windowAt(6200, 200)] };

/** Tags in order; throws where they do not nest, which no XML reader would take. */
function openedTags(svg: string): string[] {
  const open: string[] = [];
  const seen: string[] = [];
  for (const [, close, name, selfClosed] of svg.matchAll(/<(\/?)([a-z]+)[^<>]*?(\/?)>/gi)) {
    if (close) {
      if (open.pop() !== name) throw new Error(`</${name}> closes nothing`);
    } else {
      seen.push(name ?? "");
      if (!selfClosed) open.push(name ?? "");
    }
  }
  if (open.length > 0) throw new Error(`left open: ${open.join(" ")}`);
  return seen;
}

describe("the siting drawing", () => {
  test("is one well-nested picture with a title and a description for screen readers", () => {
    const svg = drawingOf(nearWindow);
    expect(openedTags(svg).slice(0, 3)).toEqual(["svg", "title", "desc"]);
    expect(svg).toContain('role="img"');
    expect(svg).toContain('aria-labelledby="siting-title siting-description"');
    expect(svg).toMatch(/<desc[^>]*>[^<]*window is 599 mm beside pack/);
  });

  test("a breach is told by word and shape; what is met has neither", () => {
    const diamond = /<path d="M[\d. ]+l14 14l-14 14l-14 -14z"/;
    expect(drawingOf(nearWindow)).toContain("breaks: 599 mm");
    expect(drawingOf(nearWindow)).toMatch(diamond);
    expect(drawingOf(farWindow)).not.toMatch(/breaks:|Breaks:/);
    expect(drawingOf(farWindow)).not.toMatch(diamond);
    expect(drawingOf(farWindow)).toContain(">600 mm<");
  });

  test("of what is met only a unit's tightest distance is drawn; the key counts the rest", () => {
    const wide = { ...windowAt(7000, 200), id: "far" };
    const svg = drawingOf({ features: [wide, windowAt(6300, 200)] });
    expect(svg).toContain(">700 mm<");
    expect(svg).not.toContain(">1400 mm<");
    expect(svg).toMatch(/>\d+ further findings are in the list\.</);
  });

  test("colours follow the page: currentColor, variables with fallbacks, or none", () => {
    const paints = [...drawingOf(nearWindow).matchAll(/ (?:fill|stroke)="([^"]+)"/g)].map(
      ([, paint]) => paint,
    );
    const allowed = /^(none|currentColor|var\(--[a-z-]+, [A-Za-z]+\)|url\(#siting-hatch\))$/;
    expect(paints.length).toBeGreaterThan(20);
    expect(paints.filter((paint) => !allowed.test(paint ?? ""))).toEqual([]);
  });

  test("names of people cannot become markup", () => {
    const hostile = `<script>alert("1")</script>&'`;
    const svg = drawingOf({
      title: hostile,
      units: [pack({ name: hostile })],
      features: [{ ...windowAt(6199, 200), name: hostile }],
    });
    expect(openedTags(svg)).not.toContain("script");
    expect(svg).toContain("&lt;script&gt;alert(&quot;1&quot;)&lt;/script&gt;&amp;&#39;");
  });

  test("is to scale: 600 × 1000 mm on a wall of 12 m keep proportion and place", () => {
    const svg = drawingOf(farWindow);
    const group = svg.slice(svg.indexOf('class="siting-battery"'));
    const sides = ["x", "width", "height", "y"].map((name) =>
      Number(new RegExp(` ${name}="([\\d.]+)"`).exec(group)?.[1]),
    );
    // Widest is 12 000 mm over 864 units, highest 6000 mm over 420: the lesser scale counts.
    const scale = Math.min(864 / 12_000, 420 / 6000);
    expect(sides[0]).toBeCloseTo(48 + 5000 * scale, 1);
    expect(sides[1]).toBeCloseTo(600 * scale, 1);
    expect(sides[2]).toBeCloseTo(1000 * scale, 1);
    // Its foot stands 200 mm above the thick ground line.
    const groundY = Number(/<path d="M48 ([\d.]+)h840"[^>]* stroke-width="2.5"/.exec(svg)?.[1]);
    expect(groundY - ((sides[3] ?? 0) + (sides[2] ?? 0))).toBeCloseTo(200 * scale, 1);
  });

  test.each([
    [0.07, "mm", 2000],
    [0.15, "mm", 1000],
    [0.5, "mm", 200],
    [0.07, "in", 2540],
  ] as const)("at scale %s the bar is a round length in %s", (scale, display, lengthMm) => {
    const bar = scaleBarLength(scale, display);
    expect(bar.lengthMm).toBeCloseTo(lengthMm, 6);
    expect(bar.width).toBeCloseTo(lengthMm * scale, 6);
    expect(bar.width).toBeLessThanOrEqual(180);
  });

  test("the caution is part of the picture", () => {
    expect(drawingOf(farWindow)).toContain("Guidance, not a certificate.");
  });
});

describe("text for SVG", () => {
  test("characters that XML 1.0 forbids are replaced (W3C XML 1.0, 2.2 Char)", () => {
    expect(escapeXml("a\u0000b\u0008c\ud800d\uffff")).toBe("a\ufffdb\ufffdc\ufffdd\ufffd");
    expect(escapeXml("tab\tline\n")).toBe("tab\tline\n");
  });

  test("long words are cut, short ones kept whole", () => {
    expect(wrapText("one two three", 7)).toEqual(["one two", "three"]);
    expect(wrapText("abcdefghij", 4)).toEqual(["abcd", "efgh", "ij"]);
  });
});
