// Period ends: Regulation (EEC, Euratom) No 1182/71 Article 3(2)(c) and 3(4), from memory, and
// the rule of Temporal's "constrain". The day of the week is asked of JavaScript's own Date.

import { describe, expect, it } from "vitest";
import { type ClaimState, nextClaimStates } from "../../../src/domain/warranty/claim-life.ts";
import { type WarrantyFacts, warrantyState } from "../../../src/domain/warranty/state.ts";
import { type WarrantyTerms, warrantyEnd } from "../../../src/domain/warranty/terms.ts";
import { throughput } from "../../../src/domain/warranty/throughput.ts";

const PLAIN: WarrantyTerms = { years: 10, evidenceNeeded: false, endMovesToWorkingDay: false };
const START = "2024-03-01";
const FACTS: WarrantyFacts = {
  commissionedOn: START,
  evidenceComplete: true,
  throughputReadings: [],
  temperatureReadings: [],
};

describe("the last day of a warranty", () => {
  it.each([
    ["2024-03-01", 10, "2034-03-01"],
    ["2024-02-29", 10, "2034-02-28"],
    ["2024-02-29", 4, "2028-02-29"],
    ["2023-02-28", 1, "2024-02-28"],
    ["2024-12-31", 2, "2026-12-31"],
  ])("from %s for %i years is %s", (start, years, end) => {
    expect(warrantyEnd({ ...PLAIN, years }, start)).toBe(end);
  });

  it("moves off a day off only where the terms say so", () => {
    expect(new Date("2026-03-01T00:00:00Z").getUTCDay()).toBe(0);
    const terms = { ...PLAIN, years: 2 };
    expect(warrantyEnd(terms, START)).toBe("2026-03-01");
    const moving = { ...terms, endMovesToWorkingDay: true };
    expect(warrantyEnd(moving, START)).toBe("2026-03-02");
    expect(warrantyEnd(moving, START, new Set(["2026-03-02"]))).toBe("2026-03-03");
    expect(warrantyEnd(moving, "2024-03-02")).toBe("2026-03-02");
  });
});

const REGISTERED = { ...PLAIN, registerWithinDays: 30 };
const FIRMWARE = { ...PLAIN, firmware: { level: "2.4.0", withinDays: 30 } };
const LIMITED = { ...PLAIN, throughputKwh: 1000 };
const WARM = { ...PLAIN, temperature: { lowest: 0, highest: 45 } };
const EVIDENCE = { ...PLAIN, evidenceNeeded: true };

function read(on: string, kwh: number): Partial<WarrantyFacts> {
  return { throughputReadings: [{ on, kwh }] };
}
function felt(lowest: number, highest: number, on = "2024-04-01"): Partial<WarrantyFacts> {
  return { temperatureReadings: [{ on, lowest, highest }] };
}

describe("a unit's state", () => {
  it.each<[string, WarrantyTerms, Partial<WarrantyFacts>, string, string, string[]]>([
    ["day before start", PLAIN, {}, "2024-02-29", "pending", ["not-commissioned"]],
    ["first day", PLAIN, {}, START, "in-term", []],
    ["last day", PLAIN, {}, "2034-03-01", "in-term", []],
    ["day after", PLAIN, {}, "2034-03-02", "expired", ["period-over"]],
    ["register, day 30", REGISTERED, {}, "2024-03-31", "at-risk", ["registration-due"]],
    ["register, day 31", REGISTERED, {}, "2024-04-01", "lapsed", ["registration-missed"]],
    [
      "registered on day 30",
      REGISTERED,
      { registeredOn: "2024-03-31" },
      "2025-01-01",
      "in-term",
      [],
    ],
    [
      "registered on day 31",
      REGISTERED,
      { registeredOn: "2024-04-01" },
      "2025-01-01",
      "lapsed",
      ["registered-late"],
    ],
    ["firmware, day 30", FIRMWARE, {}, "2024-03-31", "at-risk", ["firmware-due"]],
    ["firmware, day 31", FIRMWARE, {}, "2024-04-01", "lapsed", ["firmware-missed"]],
    ["level on day 30", FIRMWARE, { firmwareReachedOn: "2024-03-31" }, "2025-01-01", "in-term", []],
    [
      "level on day 31",
      FIRMWARE,
      { firmwareReachedOn: "2024-04-01" },
      "2025-01-01",
      "lapsed",
      ["firmware-late"],
    ],
    ["record complete", EVIDENCE, {}, "2024-04-01", "in-term", []],
    [
      "record incomplete",
      EVIDENCE,
      { evidenceComplete: false },
      "2024-04-01",
      "at-risk",
      ["evidence-incomplete"],
    ],
    ["at the limit", LIMITED, read("2024-04-01", 1000), START, "expired", ["throughput-used"]],
    [
      "under the limit, ahead of it",
      LIMITED,
      read("2024-04-01", 999.9),
      "2024-04-02",
      "at-risk",
      ["throughput-projected"],
    ],
    ["slow use", LIMITED, read("2025-03-01", 99), "2025-03-01", "in-term", []],
    ["45 °C", WARM, felt(0, 45), "2024-04-01", "in-term", []],
    ["above 45 °C", WARM, felt(0, 45.1), "2024-04-01", "at-risk", ["temperature-outside"]],
    ["below 0 °C", WARM, felt(-0.1, 45), "2024-04-01", "at-risk", ["temperature-outside"]],
    ["cold in store", WARM, felt(-20, 20, "2024-02-29"), "2024-04-01", "in-term", []],
    [
      "over and never registered",
      REGISTERED,
      {},
      "2034-03-02",
      "expired",
      ["period-over", "registration-missed"],
    ],
  ])("%s", (_, terms, facts, today, state, reasons) => {
    const found = warrantyState(terms, { ...FACTS, ...facts }, today);
    expect([found.state, found.reasons]).toEqual([state, reasons]);
  });

  it("is pending without a commissioning, and says what a claim would lack", () => {
    const terms = { ...LIMITED, ...WARM, ...FIRMWARE, ...EVIDENCE, registerWithinDays: 30 };
    const { commissionedOn: _, ...rest } = { ...FACTS, evidenceComplete: false };
    const found = warrantyState(terms, rest, START);
    expect(found.state).toBe("pending");
    expect(found.gaps).toEqual([
      "commissioning",
      "registration",
      "evidence",
      "firmware",
      "throughput-reading",
      "temperature-reading",
    ]);
    expect(warrantyState(PLAIN, FACTS, START).gaps).toEqual([]);
  });
});

describe("throughput", () => {
  it("projects by the rule of three to the last day and to the limit", () => {
    const found = throughput([{ on: "2024-03-11", kwh: 50 }], START, "2024-03-31", 100);
    expect(found).toEqual({
      usedKwh: 50,
      readOn: "2024-03-11",
      projectedKwh: 150,
      limitOn: "2024-03-21",
    });
  });

  it("takes the latest reading and none from before commissioning", () => {
    const early = { on: "2024-02-01", kwh: 9 };
    expect(throughput([early], START, "2034-03-01")).toBeUndefined();
    const readings = [{ on: "2024-05-01", kwh: 20 }, { on: "2024-04-01", kwh: 10 }, early];
    expect(throughput(readings, START, "2034-03-01")?.usedKwh).toBe(20);
  });

  it("projects no day where nothing was used, and none from the first day's reading", () => {
    expect(throughput([{ on: "2024-05-01", kwh: 0 }], START, "2034-03-01", 5)?.limitOn).toBe(
      undefined,
    );
    const first = throughput([{ on: START, kwh: 3 }], START, "2034-03-01", 5);
    expect([first?.projectedKwh, first?.limitOn]).toEqual([3, undefined]);
  });
});

describe("a claim's life", () => {
  it.each<[ClaimState, ClaimState[]]>([
    ["draft", ["sent", "withdrawn"]],
    ["sent", ["accepted", "refused", "withdrawn"]],
    ["accepted", ["settled"]],
    ["refused", []],
    ["settled", []],
    ["withdrawn", []],
  ])("from %s", (state, next) => {
    expect(nextClaimStates(state)).toEqual(next);
  });
});
