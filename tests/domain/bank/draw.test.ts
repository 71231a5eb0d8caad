import { describe, expect, test } from "vitest";
import { bankSettings } from "../../../src/domain/bank/bank-settings.ts";
import { compareSettings } from "../../../src/domain/bank/compare.ts";
import { drawSettings } from "../../../src/domain/bank/draw.ts";
import { drawSwitch } from "../../../src/domain/bank/draw-switch.ts";
import type { PackSettings } from "../../../src/domain/bank/settings.ts";
import { HEX, sampleMap } from "./sample-map.ts";

const map = sampleMap();
const settings = bankSettings(map, "binary", 3);
const packs: PackSettings[] = settings.ok ? settings.packs : [];
const lever = (onIs: "up" | "down", position: "on" | "off") =>
  drawSwitch({ kind: "termination", id: "t", label: "T", onIs }, position, 0, 0);
/** Top edge of the filled slider. */
const sliderTop = (svg: string) =>
  Number(/ y="([\d.]+)"[^>]* fill="currentColor"\/>/.exec(svg)?.[1]);

describe("the settings drawing", () => {
  test("has a title, and a description that says every setting in words", () => {
    const svg = drawSettings({ map, packs, addresses: [0, 1, 2] });
    expect(svg).toContain('role="img"');
    expect(svg).toContain('<title id="bank-title">Switch settings: Sample pack</title>');
    expect(svg).toContain("Pack 3: Address 0, Mode 010011, Termination on.");
    expect(svg).toContain(">address 2<");
  });

  test("a lever stands where the board has its on, up or down", () => {
    expect(sliderTop(lever("up", "on"))).toBeLessThan(sliderTop(lever("up", "off")));
    expect(sliderTop(lever("down", "on"))).toBeGreaterThan(sliderTop(lever("down", "off")));
    expect(sliderTop(lever("up", "on"))).toBe(sliderTop(lever("down", "off")));
  });

  test.each([
    ["0", 0, -1],
    ["4", 1, 0],
    ["8", 0, 1],
    ["C", -1, 0],
  ])("the pointer of a dial at %s points a quarter turn at a time", (position, right, down) => {
    const dial = { kind: "rotary", id: "r", label: "R", positions: HEX } as const;
    const svg = drawSwitch({ ...dial, positions: [...dial.positions] }, position, 0, 0);
    const [, x, y] = /<path d="M([-\d.]+) ([-\d.]+)L/.exec(svg) ?? [];
    const [, cx, cy] = /<circle cx="([-\d.]+)" cy="([-\d.]+)" r="34"/.exec(svg) ?? [];
    expect(Math.round((Number(x) - Number(cx)) / 30)).toBeCloseTo(right, 9);
    expect(Math.round((Number(y) - Number(cy)) / 30)).toBeCloseTo(down, 9);
  });

  test("on and off are written out, so that the picture needs no colour", () => {
    const svg = drawSettings({ map, packs });
    const words = [...svg.matchAll(/>(on|off)</g)].map(([, word]) => word);
    // Three packs of six levers and a termination.
    expect(words).toHaveLength(21);
    expect(words.filter((word) => word === "on")).toHaveLength(7);
  });

  test("a difference is marked by a diamond and by its sentence", () => {
    const found = structuredClone(packs);
    found[1]!.settings[0]!.position = "7";
    const differences = compareSettings(map, packs, found);
    const marked = drawSettings({ map, packs, differences });
    expect(marked.match(/l14 14l-14 14l-14 -14z/g)).toHaveLength(1);
    expect(marked).toContain("Pack 2, Address: is 7, must be 0.");
    expect(drawSettings({ map, packs })).not.toContain("l14 14l-14 14l-14 -14z");
  });

  test("labels cannot become markup", () => {
    const hostile = { ...map, productModel: '<img src="x">' };
    const svg = drawSettings({ map: hostile, packs, idPrefix: '"><script>' });
    expect(svg).not.toMatch(/<img|<script/);
    expect(svg).toContain("&lt;img src=&quot;x&quot;&gt;");
  });

  test("the caution is part of the picture", () => {
    expect(drawSettings({ map, packs })).toContain("Isolate, lock off and prove dead");
  });
});
