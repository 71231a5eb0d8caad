// Concession: permission to use or release a product that does not conform (ISO 9000:2015 3.12.5).
import { describe, expect, test } from "vitest";
import type { ConcessionFacts } from "../../../src/domain/plan/context.ts";
import { type Draft, planOf } from "../plan/small-plan.ts";
import { answerAt, contextOf, PERSON, verdictIn } from "./judged.ts";

const ITEM: Draft = { id: "volts", kind: "measure", unit: "V", limit: { min: 38 } };
const volts = (number: number) => answerAt(1, "volts", { number, unit: "V" });
const granted = (more: Partial<ConcessionFacts> = {}): ConcessionFacts => ({
  id: "c-1",
  itemId: "volts",
  subject: "",
  grantedBy: "person-2",
  ...more,
});

function judged(
  concessions: ConcessionFacts[],
  {
    item = ITEM,
    answers = [volts(36.9)],
    now = "2026-11-25T17:00:00Z",
    timeZone = "Europe/London",
  } = {},
) {
  const site = { supply: "TT", region: "uk", country: "GB", timeZone };
  return verdictIn(planOf([item]), "volts", answers, contextOf({ concessions, now, site }));
}

describe("a concession", () => {
  test("releases what does not conform, and says so beside what was read", () => {
    expect(judged([granted()])).toMatchObject({
      outcome: "conceded",
      clears: true,
      code: "conceded",
      concessionId: "c-1",
      answerId: "answer-volts--1",
      sentence: "Read 36.9 V; needed at least 38 V. Released by concession.",
    });
  });

  test("releases what has no answer at all", () => {
    expect(judged([granted()], { answers: [] })).toMatchObject({
      outcome: "conceded",
      clears: true,
    });
  });

  test("is not needed by what passes", () => {
    const verdict = judged([granted()], { answers: [volts(39)] });
    expect(verdict).toMatchObject({ outcome: "pass" });
    expect(verdict.concessionId).toBeUndefined();
  });

  test.each<[string, Partial<ConcessionFacts>, string]>([
    ["for another item", { itemId: "amps" }, "failed"],
    ["for another subject", { subject: "pack-1" }, "failed"],
    ["revoked", { revoked: true }, "failed"],
    ["not revoked", { revoked: false }, "conceded"],
    ["granted by who took the reading", { grantedBy: PERSON }, "failed"],
    ["expired yesterday", { expiresOn: "2026-11-24" }, "failed"],
    ["on its last day", { expiresOn: "2026-11-25" }, "conceded"],
    ["with days to go", { expiresOn: "2026-11-26" }, "conceded"],
  ])("%s: %s", (_what, more, code) => {
    expect(judged([granted(more)]).code).toBe(code);
  });

  test.each([
    ["2026-11-25T23:30:00Z", "Europe/London", "conceded"],
    ["2026-11-25T23:30:00Z", "Europe/Berlin", "failed"],
    ["2026-11-26T04:30:00Z", "America/New_York", "conceded"],
  ])("ends with its day at the site: %s in %s: %s", (now, timeZone, code) => {
    expect(judged([granted({ expiresOn: "2026-11-25" })], { now, timeZone }).code).toBe(code);
  });

  test("of two, one that counts is enough", () => {
    const two = [granted({ id: "c-0", revoked: true }), granted({ id: "c-1" })];
    expect(judged(two).concessionId).toBe("c-1");
    expect(judged([...two].reverse()).concessionId).toBe("c-1");
  });

  test("never releases what is safety-critical", () => {
    expect(judged([granted()], { item: { ...ITEM, safetyCritical: true } })).toMatchObject({
      outcome: "fail",
      clears: false,
    });
  });

  test("releases for one subject only", () => {
    const perPack = { ...ITEM, repeat: { per: "unit" } };
    const context = contextOf({ concessions: [granted({ subject: "pack-1" })] });
    const plan = planOf([perPack]);
    expect(verdictIn(plan, "volts", [], context, "pack-1").code).toBe("conceded");
    expect(verdictIn(plan, "volts", [], context, "pack-2").code).toBe("missing");
  });
});
