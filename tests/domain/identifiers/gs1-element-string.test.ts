import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  buildElementString,
  buildPrintedElementString,
  parseElementString,
} from "../../../src/domain/identifiers/gs1-element-string.ts";
import { elementSet, elementsOf } from "./gs1-elements.ts";

const GS = "\u001d";

describe("element strings (GS1 General Specifications 3 and 7.8)", () => {
  test.each([
    [`010950600013435221SN42${GS}10LOT7`, "(01)09506000134352(21)SN42(10)LOT7"],
    [`]C1010950600013435221SN42${GS}10LOT7`, "(01)09506000134352(21)SN42(10)LOT7"],
    [`${GS}010950600013435221SN42`, "(01)09506000134352(21)SN42"],
    [`0109506000134352${GS}21SN42${GS}`, "(01)09506000134352(21)SN42"],
    ["(01)09506000134352(21)SN42(10)LOT7", "(01)09506000134352(21)SN42(10)LOT7"],
    ["(01) 09506000134352 (21) SN42", "(01)09506000134352(21)SN42"],
    ["00376104250021234569", "(00)376104250021234569"],
    [`11260131172612003712${GS}240X1`, "(11)260131(17)261200(37)12(240)X1"],
    [`30100${GS}241AB-1${GS}250S-2${GS}91anything`, "(30)100(241)AB-1(250)S-2(91)anything"],
    [`310300019510L1`, "(3103)000195(10)L1"],
    [`422036${GS}80121.2.3`, "(422)036(8012)1.2.3"],
    ["4149520123456788", "(414)9520123456788"],
  ])("%j reads as %s", (text, printed) => {
    expect(parseElementString(text)).toEqual({ ok: true, elements: elementsOf(printed) });
  });

  test.each([
    ["", 1, "nothing to read"],
    ["89ABC", 1, "does not start an identifier"],
    [`010950600013435289ABC`, 17, "does not start an identifier"],
    ["0109506000134353", 1, "wrong check digit"],
    ["010950600013435", 1, "13 characters where 14"],
    ["01A9506000134352", 1, "digits only"],
    ["11261301", 1, "no date"],
    ["11260230", 1, "no date"],
    ["11270229", 1, "no date"],
    ["21", 1, "0 characters"],
    [`21${"1".repeat(21)}`, 1, "1 to 20"],
    ["21AB CD", 1, "does not allow"],
    ["21AB#1", 1, "does not allow"],
    [`37123456789`, 1, "1 to 8"],
    [`37A`, 1, "digits only"],
    [`91${"x".repeat(91)}`, 1, "1 to 90"],
    ["(1)5", 1, "does not start an identifier"],
    ["(01)09506000134352(89)X", 19, "does not start an identifier"],
    ["(01)09506000134352 21 SN", 1, "20 characters"],
    [`21A${GS}21B`, 1, "twice"],
    ["1".repeat(4001), 4000, "too long"],
  ])("%j is refused at character %d", (text, position, reason) => {
    expect(parseElementString(text)).toEqual({
      ok: false,
      position,
      problem: expect.stringContaining(reason),
    });
  });

  test.each([
    ["21", 20],
    ["10", 20],
    ["240", 30],
    ["241", 30],
    ["250", 30],
    ["91", 90],
    ["99", 90],
  ])("(%s) takes %d characters and not one more", (ai, lengthMax) => {
    expect(parseElementString(ai + "A".repeat(lengthMax)).ok).toBe(true);
    expect(parseElementString(ai + "A".repeat(lengthMax + 1)).ok).toBe(false);
  });

  test("29 February is a date in a leap year, and day 00 stands for the month", () => {
    expect(parseElementString("11280229").ok).toBe(true);
    expect(parseElementString("17280200").ok).toBe(true);
  });

  test("the same identifier with the same value is allowed, other values only when asked", () => {
    expect(parseElementString(`21A${GS}21A`).ok).toBe(true);
    expect(parseElementString(`21A${GS}21B`, { repeats: "keep" })).toMatchObject({ ok: true });
  });

  test("a separator is written after values of open length only, and not at the end (7.8)", () => {
    const elements = elementsOf("(21)SN42(01)09506000134352(10)LOT7(422)036(11)260131(91)X");
    expect(buildElementString(elements)).toEqual({
      ok: true,
      text: `21SN42${GS}010950600013435210LOT7${GS}422036${GS}1126013191X`,
    });
    expect(buildElementString([])).toMatchObject({ ok: false });
    expect(buildElementString([{ ai: "21", value: "" }])).toMatchObject({ ok: false });
  });
});

describe("every allowed character survives writing and reading", () => {
  test("as a scanned and as a printed element string", () => {
    fc.assert(
      fc.property(
        fc.shuffledSubarray([0, 1, 2, 3, 4, 5], { minLength: 1 }),
        elementSet,
        (order, set) => {
          const elements = order.map((at) => set[at] ?? { ai: "", value: "" });
          for (const build of [buildElementString, buildPrintedElementString]) {
            const written = build(elements);
            if (!written.ok) return false;
            const read = parseElementString(written.text);
            if (JSON.stringify(read.ok && read.elements) !== JSON.stringify(elements)) return false;
          }
          return true;
        },
      ),
    );
  });
});
