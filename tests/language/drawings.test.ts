import { describe, expect, test } from "vitest";
import { BANK_CAUTION, bankSettings } from "../../src/domain/bank/bank-settings.ts";
import { drawSettings } from "../../src/domain/bank/draw.ts";
import type { PackSettings } from "../../src/domain/bank/settings.ts";
import { textLines, wrapText } from "../../src/domain/siting/svg.ts";
import { retellDrawing } from "../../src/language/sentences/drawing.ts";
import { retell } from "../../src/language/sentences/retell.ts";
import { sampleMap } from "../domain/bank/sample-map.ts";

const map = sampleMap();
const settings = bankSettings(map, "binary", 3);
const packs: PackSettings[] = settings.ok ? settings.packs : [];
const drawn = drawSettings({ map, packs, addresses: [0, 1, 2] });
/** The lines of text, as they are read. */
const textsOf = (svg: string): string[] =>
  [...svg.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map(([, text = ""]) => text);

describe("a drawing in Spanish", () => {
  test("tells a sentence over several lines as one, in as many lines", () => {
    const told = textsOf(retellDrawing("es", drawn));
    expect(told).toHaveLength(textsOf(drawn).length);
    expect(told.join(" ")).toContain(retell("es", BANK_CAUTION));
    expect(retell("es", BANK_CAUTION)).not.toBe(BANK_CAUTION);
    expect(told.join(" ")).not.toContain("Isolate");
  });

  test("holds what stands in no table as it was, escaped once", () => {
    const lines = textLines(0, 0, wrapText('Ada\'s <own> "pack" & more of it here', 12), 16);
    const told = retellDrawing("es", lines.join(""));
    expect(textsOf(told).join(" ")).toBe(
      "Ada&#39;s &lt;own&gt; &quot;pack&quot; &amp; more of it here",
    );
    expect(retellDrawing("en", drawn)).toBe(drawn);
  });
});
