// Every plan that a firm can begin with: its sample opens the gate, and one hold point that is not
// met closes it (hold point: ISO 9000 family, inspection and test plans).
import { describe, expect, test } from "vitest";
import type { Answer } from "../../../src/domain/acceptance/answer.ts";
import { closeOut } from "../../../src/domain/closeout/gate.ts";
import { checkPlan } from "../../../src/domain/plan/check.ts";
import { type CompiledPlan, compilePlan } from "../../../src/domain/plan/compile.ts";
import type { Item } from "../../../src/domain/plan/item.ts";
import { type Sample, sampleFor } from "../../../src/domain/plan/sample.ts";
import { STARTER_PLANS } from "../../../src/features/plans/starter-plans.ts";
import { findStarterIn } from "../../../src/features/plans/starters-in.ts";

const STARTS_AT = "2026-11-20T08:00:00Z";
const SUPPLIES = ["TN-C-S", "TT"];

const compiled = (document: object): CompiledPlan => {
  const checked = checkPlan(document);
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  return compilePlan(checked.plan);
};
const itemsOf = (name: string): readonly Item[] =>
  compiled(findStarterIn("en", name)!.document).items.map(({ item }) => item);
const everyItem = STARTER_PLANS.flatMap(({ name }) => itemsOf(name));

const CASES = STARTER_PLANS.flatMap(({ name, document }) =>
  SUPPLIES.map((supply): [string, string, object] => [name, supply, document]),
);

/** Values that should not be accepted of an item; the first that is not counts. */
function badValues(item: Item): Record<string, unknown>[] {
  switch (item.kind) {
    case "confirm":
      return [{ done: false }];
    case "measure":
      return [1e6, -1e6].map((number) => ({ number, unit: item.unit }));
    case "tighten": {
      const points = Array.from({ length: item.points }, (_, index) => index + 1);
      return [{ points, setting: { number: 1e6, unit: item.unit } }];
    }
    case "count":
      return [0, 99_999].map((count) => ({ count }));
    case "choose":
      return item.options.map((choice) => ({ choice }));
    case "identify":
      return [{ text: "WRONG-1" }, { text: "1.0.0" }];
    case "set":
      return [
        { positions: Object.fromEntries(item.positions.map((one) => [one.switch, "wrong"])) },
      ];
    default:
      return [];
  }
}

/** The sample's answers with this one not met: by a bad value, without photos, or left out. */
function spoilt(plan: CompiledPlan, sample: Sample, answer: Answer): [string, readonly Answer[]] {
  const { item } = plan.byId.get(answer.itemId)!;
  const replaced = (other: Answer) =>
    sample.answers.map((one) => (one.id === answer.id ? other : one));
  if (item.kind === "photo") return ["photos", replaced({ ...answer, photos: [] })];
  for (const value of badValues(item)) {
    const answers = replaced({ ...answer, value });
    const { facts } = closeOut(plan, answers, sample.context);
    const fact = facts.find((one) => one.itemId === item.id && one.subject === answer.subject);
    if (fact && ["fail", "marginal"].includes(fact.outcome)) return ["value", answers];
  }
  return ["left out", sample.answers.filter(({ id }) => id !== answer.id)];
}

describe.each(CASES)("the sample of %s on a %s supply", (_name, supply, document) => {
  const plan = compiled(document);
  const sample = sampleFor(plan, STARTS_AT, { supply });

  test("opens the gate, and nothing in it could not be worked out", () => {
    const { open, blockers } = closeOut(plan, sample.answers, sample.context);
    expect(sample.notDerived).toEqual([]);
    expect([open, blockers]).toEqual([true, []]);
  });

  test("with any single hold point not met closes it", () => {
    let spoiltCount = 0;
    for (const answer of sample.answers) {
      const { item, holdPoint } = plan.byId.get(answer.itemId)!;
      if (!holdPoint) continue;
      const [by, answers] = spoilt(plan, sample, answer);
      const { open, blockers } = closeOut(plan, answers, sample.context);
      const mark = `${answer.itemId} ${answer.subject} by ${by}`;
      expect(open, mark).toBe(false);
      const own = blockers.find((one) => one.itemId === item.id && one.subject === answer.subject);
      expect(own, mark).toBeDefined();
      expect(own?.concedable, mark).toBe(item.safetyCritical !== true);
      if (by === "left out") {
        const takesAnything = item.kind === "sign" || !("limit" in item) || !item.limit;
        expect(takesAnything, mark).toBe(true);
      }
      spoiltCount += 1;
    }
    expect(spoiltCount).toBeGreaterThan(5);
  });
});

describe("the removal", () => {
  test.each(["battery-pack", "inverter"])("of nothing but a %s can be closed", (kind) => {
    const plan = compiled(findStarterIn("en", "removal")!.document);
    const { context, answers } = sampleFor(plan, STARTS_AT);
    const units = context.units.filter((unit) => unit.kind === kind);
    const gone = new Set(context.units.filter((unit) => unit.kind !== kind).map(({ id }) => id));
    const left = answers.filter(({ subject }) => !gone.has(subject));
    expect(left.length).toBeLessThan(answers.length);
    expect(closeOut(plan, left, { ...context, units }).blockers).toEqual([]);
  });
});

describe("starter plans", () => {
  test("cover the work from the survey to the removal, each with its code once", () => {
    expect(STARTER_PLANS.map(({ name }) => name).toSorted()).toEqual([
      ...["backup-gateway", "firmware-visit", "goods-in", "hybrid-inverter"],
      ...["periodic-inspection", "pv-strings", "removal", "site-survey", "stacked-bank", "swap"],
      "wall-mounted-packs",
    ]);
    expect(new Set(STARTER_PLANS.map(({ code }) => code)).size).toBe(STARTER_PLANS.length);
    for (const { code } of STARTER_PLANS) expect(code).toMatch(/^[A-Z0-9][A-Z0-9-]{1,31}$/);
  });

  test("have nothing that deserves a look but figures that are typed, not measured", () => {
    for (const { name, document } of STARTER_PLANS) {
      const checked = checkPlan(document);
      const codes = new Set(checked.ok ? checked.warnings.map(({ code }) => code) : ["faults"]);
      codes.delete("no-instrument");
      expect([...codes], name).toEqual([]);
    }
  });

  test.each(["goods-in", "swap", "removal"])(
    "of %s stop at a damaged cell: safety-critical, accepted only sound, with the caution",
    (name) => {
      const stops = itemsOf(name).filter(
        (item) => item.kind === "choose" && item.options.some((option) => /wet/i.test(option)),
      );
      expect(stops.length).toBeGreaterThan(0);
      for (const item of stops) {
        if (item.kind !== "choose") continue;
        expect(item.safetyCritical, item.id).toBe(true);
        expect(item.limit!.oneOf.some((one) => /wet|swollen|burst/i.test(String(one)))).toBe(false);
        if (!/smelling|smoking/.test(item.options.join())) continue;
        expect(item.cautions!.join(" ")).toMatch(/stop, leave it where it is, keep everyone clear/);
        expect(item.toClear).toMatch(/maker/);
        expect(item.toClear).toMatch(/fire service/);
      }
    },
  );

  test("never tell anyone to carry a pack that may be damaged", () => {
    for (const { toClear = "", id } of everyItem) {
      expect(toClear, id).not.toMatch(/quarantine|carry|move it|bring it/i);
    }
  });

  test("prove dead after isolating, not before the capacitors had their time", () => {
    const provers = everyItem.filter(({ id }) => id === "proved_dead");
    expect(provers.length).toBeGreaterThanOrEqual(7);
    for (const item of provers) {
      expect(item).toMatchObject({ supply: "dead", dwell: { after: "isolated", atLeastS: 300 } });
      expect(item.safetyCritical).toBe(true);
      expect(Object.values(item.breakers!.with!).every((state) => state === "open")).toBe(true);
    }
  });

  test("repeat continuity after insulation failed (IEC 60364-6 6.4.3.1, from memory)", () => {
    const insulation = everyItem.filter(({ id }) => id === "ac_insulation");
    expect(insulation.length).toBeGreaterThanOrEqual(5);
    for (const item of insulation) expect(item.onFailRepeat).toContain("earth_continuity");
  });

  test("read packs with the breaker open and closed before a cable is connected", () => {
    for (const name of ["wall-mounted-packs", "swap"]) {
      const items = new Map(itemsOf(name).map((item) => [item.id, item]));
      expect(items.get("output_open")?.breakers?.with).toEqual({ battery: "open" });
      expect(items.get("open_circuit_voltage")?.breakers?.with).toEqual({ battery: "closed" });
      expect(items.get("power_terminals")?.breakers?.with).toMatchObject({ battery: "open" });
    }
  });

  test("say where each figure of a limit comes from", () => {
    const typed = /[Dd]ata sheet|label|screen|figures|[Rr]ead it off/;
    const bare = everyItem.filter((item) => {
      if (item.kind !== "measure") return false;
      const said = `${item.why ?? ""} ${item.do}`;
      const named = /IEC|BS 7671|IET|EN 50160|PAS|ISO|Regulations|no source|maker|grid code/.test(
        said,
      );
      return !named && !typed.test(said) && !JSON.stringify(item.limit).includes("model.");
    });
    expect(bare.map(({ id }) => id)).toEqual([]);
  });
});
