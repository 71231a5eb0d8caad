import { createHash } from "node:crypto";
import { describe, expect, test } from "vitest";
import { canonicalize } from "../../../src/domain/evidence/canonical-json.ts";
import { openLedger } from "../../../src/domain/evidence/recheck-texts.ts";
import {
  openBody,
  type SaltedText,
  saltBody,
  saltedPaths,
} from "../../../src/domain/evidence/salted-texts.ts";

const SALT = "0f".repeat(32);
const sum = (text: string): string => createHash("sha256").update(text).digest("hex");
const BODY = {
  id: "a",
  bodySha256: sum("the whole answer"),
  note: "Signed by her son – “Iñigo” 🔑",
  value: { name: "Ida Rook", signature: sum("picture") },
};
const sealed = saltBody("answer.taken", BODY, () => SALT);

describe("the body of an entry", () => {
  test("holds hashes where a person wrote, and what is hashed over it is salted too", () => {
    expect(sealed.texts.map(({ path }) => path)).toEqual(["/value/name", "/note", "/bodySha256"]);
    expect(sealed.body).toEqual({
      id: "a",
      bodySha256: { salted: sum(SALT + BODY.bodySha256) },
      note: { salted: sum(SALT + BODY.note) },
      value: { name: { salted: sum(`${SALT}Ida Rook`) }, signature: BODY.value.signature },
    });
    const held = JSON.stringify(sealed.body);
    for (const word of ["Ida", "Rook", "son", BODY.bodySha256]) expect(held).not.toContain(word);
  });

  test("is as it was where nobody wrote anything, and each text has a salt of its own", () => {
    const plain = { id: "a", bodySha256: BODY.bodySha256, note: null, value: { done: true } };
    expect(saltBody("answer.taken", plain, () => SALT)).toEqual({ body: plain, texts: [] });
    const opened = { kind: "survey", personId: "p" };
    expect(saltBody("job.opened", opened, () => SALT)).toEqual({ body: opened, texts: [] });
    let turn = 0;
    const salts = saltBody("answer.taken", BODY, () => String(turn++)).texts;
    expect(new Set(salts.map(({ salt }) => salt)).size).toBe(3);
  });

  test("opens to what was written, and to Erased where that is kept no more", () => {
    const texts = new Map(sealed.texts.map(({ path, text }) => [path, text]));
    expect(openBody(sealed.body, texts)).toEqual(BODY);
    expect(openBody(sealed.body, new Map())).toEqual({
      ...BODY,
      bodySha256: "0".repeat(64),
      note: "Erased",
      value: { ...BODY.value, name: "Erased" },
    });
  });

  test("has a hash only in an object that holds nothing else", () => {
    expect(saltedPaths({ a: { salted: "none" }, b: { salted: SALT, c: 1 }, d: [1] })).toEqual([]);
    expect(saltedPaths({ a: { b: { salted: SALT } } })).toEqual([{ path: "/a/b", sha256: SALT }]);
  });
});

const FACTS = [
  { seq: 1, kind: "job.opened", body: {} },
  { seq: 2, kind: "answer.taken", body: sealed.body },
];
const ERASURE = { seq: 3, kind: "record.erased", body: {} };
const lineOf = ({ path, salt, text }: SaltedText): string =>
  `${canonicalize({ entry: 2, path, salt, text })}\n`;
const LINES = sealed.texts.toSorted((a, b) => (a.path < b.path ? -1 : 1)).map(lineOf);
const [FIRST = "", SECOND = "", THIRD = ""] = LINES;

describe("the texts beside a ledger", () => {
  test("open it, whole", () => {
    const { facts, withheld, faults } = openLedger(FACTS, LINES.join(""));
    expect([facts[1]?.body, withheld, faults]).toEqual([BODY, 0, []]);
  });

  test("may be missing where the ledger says they were erased, and then are counted", () => {
    const erased = openLedger([...FACTS, ERASURE], "");
    expect([erased.withheld, erased.faults]).toEqual([3, []]);
    const partly = openLedger([...FACTS, ERASURE], FIRST + SECOND);
    expect([partly.withheld, partly.faults]).toEqual([1, []]);
  });

  test("of an entry after the erasure are not covered by it", () => {
    const later = { seq: 4, kind: "job.reopened", body: { reason: { salted: SALT } } };
    const { faults } = openLedger([...FACTS, ERASURE, later], "");
    expect(faults.map(({ code, values }) => [code, values.entry])).toEqual([["text-missing", 4]]);
  });

  test.each<[string, string, string]>([
    ["another text", FIRST + SECOND + THIRD.replace("Ida", "Ada"), "text-differs"],
    ["another salt", FIRST + SECOND + THIRD.replace("0f", "1f"), "text-differs"],
    ["a line too few", FIRST + THIRD, "text-missing"],
    ["a line of no entry", FIRST + SECOND + THIRD + lineOf3("/reason"), "text-surplus"],
    ["a line of no member", FIRST + lineOf2("/none") + SECOND + THIRD, "text-surplus"],
    ["two lines in the other order", SECOND + FIRST + THIRD, "text-order"],
    ["a line twice", FIRST + FIRST + SECOND + THIRD, "text-order"],
    ["a line that is no JSON", `${FIRST}{\n`, "text-unread"],
    ["no end of the last line", LINES.join("").slice(0, -1), "text-unread"],
    ["a member too many", `${canonicalize({ ...JSON.parse(FIRST), x: 1 })}\n`, "text-unread"],
    ["a short salt", `${canonicalize({ ...JSON.parse(FIRST), salt: "0f" })}\n`, "text-unread"],
    ["spaces in a line", FIRST.replace(",", ", ") + SECOND + THIRD, "text-unread"],
  ])("are refused with %s", (_what, content, code) => {
    expect(openLedger(FACTS, content).faults.map((one) => one.code)).toContain(code);
  });
});

function lineOf2(path: string): string {
  return `${canonicalize({ entry: 2, path, salt: SALT, text: "x" })}\n`;
}

function lineOf3(path: string): string {
  return `${canonicalize({ entry: 3, path, salt: SALT, text: "x" })}\n`;
}
