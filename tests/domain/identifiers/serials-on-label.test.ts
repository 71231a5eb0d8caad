import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { serialsOnLabel } from "../../../src/domain/identifiers/serials-on-label.ts";

const GS = "\u001d";
const GTIN = "09506000134352";

function read(text: string): string[] {
  return serialsOnLabel(text).serials.map(({ serial, readAs }) => `${readAs} ${serial}`);
}

describe("labels (GS1 General Specifications 7.8; layouts: common practice, no source)", () => {
  test.each([
    ["one element string", `01${GTIN}21SN42${GS}10LOT7`, ["element-string SN42"]],
    ["several identifiers 21", `01${GTIN}21A${GS}21B${GS}21C`, ["A", "B", "C"]],
    ["printed, several 21", `(01)${GTIN}(21)A(21)B`, ["A", "B"]],
    ["joined by line ends", `01${GTIN}21A\r\n01${GTIN}21B\n`, ["A", "B"]],
    ["joined by commas", `(01)${GTIN}(21)A,(01)${GTIN}(21)B`, ["A", "B"]],
    ["scanned, joined by commas", `01${GTIN}21A,01${GTIN}21B`, ["A", "B"]],
    ["with a comma in a value", `(01)${GTIN}(21)A,1`, ["A,1"]],
    ["with a semicolon in a value", `(21)A;1;(21)B`, ["A;1", "B"]],
  ])("%s", (_layout, text, serials) => {
    const found = read(text).map((one) => one.replace("element-string ", ""));
    expect(found).toEqual(serials.map((one) => one.replace("element-string ", "")));
  });

  test("a Digital Link URI beside plain serials", () => {
    const link = `https://id.gs1.org/01/${GTIN}/10/L1/21/SN%2F9`;
    const text = `${link},HB-1; HB-2\nS/N: HB-3\nSerial No.: HB-4`;
    expect(read(text)).toEqual([
      "digital-link SN/9",
      "plain HB-1",
      "plain HB-2",
      "plain HB-3",
      "plain HB-4",
    ]);
  });

  test("the GTIN and lot go with their serials", () => {
    expect(serialsOnLabel(`01${GTIN}21A${GS}21B${GS}10LOT7`).serials).toEqual([
      { serial: "A", readAs: "element-string", gtin: GTIN, lot: "LOT7" },
      { serial: "B", readAs: "element-string", gtin: GTIN, lot: "LOT7" },
    ]);
    expect(serialsOnLabel(`(01)${GTIN}(10)L1(21)A(01)09520123456788(21)B`).serials).toEqual([
      { serial: "A", readAs: "element-string", gtin: GTIN, lot: "L1" },
      { serial: "B", readAs: "element-string", gtin: "09520123456788" },
    ]);
  });

  test("a serial scanned twice is given once and named as repeated", () => {
    expect(serialsOnLabel("HB-1\nHB-2\nHB-1")).toMatchObject({
      serials: [{ serial: "HB-1" }, { serial: "HB-2" }],
      repeated: ["HB-1"],
    });
    expect(serialsOnLabel(`(01)${GTIN}(21)A\n(01)09520123456788(21)A`).serials).toHaveLength(2);
  });

  test.each([
    ["a carton code without serial", "(00)376104250021234569", "no serial (21)"],
    ["a code with a wrong check digit", "(01)09506000134353(21)A", "wrong check digit"],
    ["a sentence", "two packs on pallet", "no spaces"],
    ["a line of 65 characters", "A".repeat(65), "at most 64"],
    ["a broken address", "https://example.com/x", "no GS1 key"],
  ])("%s is listed as a problem and the next line is still read", (_what, line, reason) => {
    expect(serialsOnLabel(`${line}\nHB-1`)).toEqual({
      serials: [{ serial: "HB-1", readAs: "plain" }],
      repeated: [],
      problems: [{ text: line, problem: expect.stringContaining(reason) }],
    });
  });

  test.each([`01${GTIN}`, "0112345678901234", "00376104250021234569"])(
    "the plain number %s is not taken for a GS1 code",
    (text) => {
      expect(read(text)).toEqual([`plain ${text}`]);
    },
  );

  test("nothing on the label gives nothing", () => {
    expect(serialsOnLabel(" \r\n , ;\t")).toEqual({ serials: [], repeated: [], problems: [] });
  });

  test("500 serials are read; 501, or 20,001 characters, are refused as a whole", () => {
    const lines = (count: number) =>
      Array.from({ length: count }, (_, at) => `HB-${at}`).join("\n");
    expect(serialsOnLabel(lines(500)).serials).toHaveLength(500);
    expect(serialsOnLabel(lines(501))).toMatchObject({ serials: [], problems: [{}] });
    expect(serialsOnLabel("A".repeat(20_001))).toMatchObject({ serials: [], problems: [{}] });
  });
});

test("any text is cut into printable serials and problems, never an exception", () => {
  const piece = fc.constantFrom(
    "(21)",
    "(01)",
    GTIN,
    ",",
    ";",
    "\n",
    GS,
    "A",
    "1",
    "https://",
    " ",
  );
  const text = fc.array(piece, { maxLength: 30 }).map((pieces) => pieces.join(""));
  fc.assert(
    fc.property(fc.oneof(text, fc.string({ maxLength: 100 })), (typed) => {
      const reading = serialsOnLabel(typed);
      return (
        reading.serials.every(({ serial }) => /^[!-~]{1,64}$/.test(serial)) &&
        reading.problems.every(({ problem }) => problem.endsWith("."))
      );
    }),
    { numRuns: 3000 },
  );
});
