// Fonts of a PDF/A file (ISO 19005-2, 6.2.11, from memory), as far as TrueType in composite fonts.
import { content, isDict, isStream, type PdfFile } from "./pdf-file.ts";
import { type Dict, Name, type Value } from "./pdf-objects.ts";

/** @param used codes shown, by the number of the font's object */
export function fontFaults(
  file: PdfFile,
  used: ReadonlyMap<number, ReadonlySet<number>>,
): string[] {
  return [...used].flatMap(([number, codes]) => {
    const font = file.objects.get(number) as Dict;
    const faults = oneFont(file, font, codes);
    return faults.map((fault) => `${fault} (${(font.BaseFont as Name)?.text})`);
  });
}

const nameOf = (value: Value | undefined): string => (value instanceof Name ? value.text : "");

function oneFont(file: PdfFile, font: Dict, codes: ReadonlySet<number>): string[] {
  const faults: string[] = [];
  const unless = (holds: boolean, fault: string) => void (holds || faults.push(fault));
  const inner = file.get((file.get(font.DescendantFonts) as Value[] | undefined)?.[0]);
  if (!isDict(inner)) return ["6.2.11.2: it is no composite font"];
  const descriptor = file.get(inner.FontDescriptor) as Dict;
  const program = file.get(descriptor?.FontFile2);
  unless(nameOf(font.Encoding) === "Identity-H", "6.2.11.3.3: another encoding than Identity-H");
  unless(isDict(file.get(inner.CIDSystemInfo)), "6.2.11.3.1: no CIDSystemInfo");
  unless(nameOf(inner.Subtype) === "CIDFontType2", "6.2.11.2: no TrueType");
  unless(nameOf(inner.CIDToGIDMap) === "Identity", "6.2.11.3.2: no CIDToGIDMap");
  const names = [font.BaseFont, inner.BaseFont, descriptor?.FontName].map(nameOf);
  unless(new Set(names).size === 1, "6.2.11.2: the font has two names");
  unless(!("CIDSet" in descriptor), "6.2.11.4.2: a CIDSet, which is not looked at here");
  unless(!codes.has(0), "6.2.11.8: a sign without a shape (.notdef)");
  if (!isStream(program)) return [...faults, "6.2.11.4.1: it is not embedded"];
  const shapes = trueType(content(program));
  for (const code of codes) {
    unless(code < shapes.count, `6.2.11.4.1: no shape for ${code}`);
    const stated = widthOf(file.get(inner.W) as Value[], code) ?? (inner.DW as number) ?? 1000;
    unless(Math.abs(stated - shapes.width(code)) <= 1, `6.2.11.5: the width of ${code}`);
  }
  const map = file.get(font.ToUnicode);
  if (!isStream(map)) return [...faults, "6.2.11.7.2: no ToUnicode"];
  const unicode = readMap(content(map).toString("latin1"));
  for (const code of codes) {
    const text = unicode.get(code) ?? "";
    unless(text !== "", `6.2.11.7.2: ${code} stands for no text`);
    unless(!/[\0\uFEFF\uFFFE]/.test(text), `6.2.11.7.2: ${code} stands for no sign`);
    // 6.2.11.7.3, level A: private use needs ActualText.
    unless(!/\p{Co}/u.test(text), `6.2.11.7.3: ${code} stands for a private sign`);
  }
  return faults;
}

/** W is [first [w w …] …] or [first last w …] (ISO 32000-1, 9.7.4.3). */
function widthOf(list: readonly Value[], code: number): number | undefined {
  for (let at = 0; at < list.length; ) {
    const first = list[at] as number;
    const next = list[at + 1];
    if (Array.isArray(next)) {
      if (code >= first && code < first + next.length) return next[code - first] as number;
      at += 2;
    } else {
      if (code >= first && code <= (next as number)) return list[at + 2] as number;
      at += 3;
    }
  }
  return undefined;
}

/** Widths in thousandths of an em, off head, hhea, maxp and hmtx (OpenType). */
function trueType(font: Buffer) {
  const tables = new Map<string, number>();
  for (let row = 0; row < font.readUInt16BE(4); row += 1) {
    const at = 12 + row * 16;
    tables.set(font.toString("latin1", at, at + 4), font.readUInt32BE(at + 8));
  }
  const at = (table: string): number => {
    const place = tables.get(table);
    if (place === undefined) throw new Error(`6.2.11.4.1: the font has no table ${table}`);
    return place;
  };
  const em = font.readUInt16BE(at("head") + 18);
  const metrics = font.readUInt16BE(at("hhea") + 34);
  const count = font.readUInt16BE(at("maxp") + 4);
  const width = (glyph: number): number => {
    const row = Math.min(glyph, metrics - 1);
    return (font.readUInt16BE(at("hmtx") + row * 4) * 1000) / em;
  };
  return { count, width };
}

const textOf = (hex: string): string => Buffer.from(hex, "hex").swap16().toString("utf16le");

/** bfchar and bfrange, the latter with a list or a first value (ISO 32000-1, 9.10.3). */
function readMap(map: string): Map<number, string> {
  const found = new Map<number, string>();
  const code = (hex = ""): number => Number.parseInt(hex, 16);
  for (const [, rows = ""] of map.matchAll(/beginbfchar([\s\S]*?)endbfchar/g)) {
    for (const [, from, to = ""] of rows.matchAll(/<(\w+)>\s*<(\w+)>/g)) {
      found.set(code(from), textOf(to));
    }
  }
  for (const [, rows = ""] of map.matchAll(/beginbfrange([\s\S]*?)endbfrange/g)) {
    for (const [, from, , list] of rows.matchAll(/<(\w+)>\s*<(\w+)>\s*\[([^\]]*)\]/g)) {
      const signs = (list ?? "").match(/<[^>]*>/g) ?? [];
      for (const [index, sign] of signs.entries()) {
        found.set(code(from) + index, textOf(sign.replaceAll(/[<>\s]/g, "")));
      }
    }
  }
  return found;
}
