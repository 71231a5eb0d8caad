import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { kitFor } from "../../../src/domain/kit/kit-for.ts";
import type { KitModel, KitUnit } from "../../../src/domain/kit/kit-item.ts";
import type { PlanKitLine } from "../../../src/domain/kit/line.ts";
import { byKey, CONFIRM, item, line, model, plan, unit } from "./kit-parts.ts";

describe("what the models need (their makers' lists, as data)", () => {
  const kit = [
    line({ stockCode: "BOLT-M10" }),
    line({ id: "bracket", category: "consumable", name: "Bracket", amount: 1, supplied: true }),
    line({ id: "lug", category: "consumable", name: "Cable lug", amount: 0.1, countedIn: "set" }),
  ];

  test.each([
    [1, 4, 0.1],
    [2, 8, 0.2],
    [3, 12, 0.3],
  ])("%i units want %i anchors, and %d sets without a rounding rest", (count, anchors, sets) => {
    const units = Array.from({ length: count }, (_, index) => unit(String(index)));
    const found = kitFor(plan([CONFIRM]), [model({ kit })], units);
    expect(byKey(found, "model:W5:anchor")).toMatchObject({
      amount: anchors,
      stockCode: "BOLT-M10",
    });
    expect(byKey(found, "model:W5:lug")?.amount).toBe(sets);
  });

  test("what the maker supplies is listed apart and is not packed", () => {
    const found = kitFor(plan([CONFIRM]), [model({ kit })], [unit("1")]);
    expect(found.inTheBox.map(({ key }) => key)).toEqual(["model:W5:bracket"]);
    expect(byKey(found, "model:W5:bracket")).toBeUndefined();
  });

  test("a unit that stands at the site is not carried there, and brings no anchors", () => {
    const found = kitFor(plan([CONFIRM]), [model({ kit })], [unit("1", { atSite: true })]);
    expect(found.items).toEqual([]);
    expect(found.gaps).toEqual([]);
  });

  test("110 kg, 4 anchors, e 0.15 m, h 0.6 m: 270 N shear, 135 N tension each (statics)", () => {
    const attributes = { massKg: 110, topAnchors: 2, centreOfGravityMm: 150, leverArmMm: 600 };
    const found = kitFor(plan([CONFIRM]), [model({ attributes, kit })], [unit("1")]);
    expect(byKey(found, "model:W5:anchor")?.notes).toEqual([
      { code: "shear-each", newtons: 270 },
      { code: "tension-each", newtons: 135 },
    ]);
  });

  test("without the figures for tension it names them, and still says the shear", () => {
    const attributes = { massKg: 110, topAnchors: 2 };
    const found = kitFor(plan([CONFIRM]), [model({ attributes, kit })], [unit("1")]);
    expect(byKey(found, "model:W5:anchor")?.notes).toEqual([
      { code: "shear-each", newtons: 270 },
      { code: "tension-unknown", missing: ["centreOfGravityMm", "leverArmMm"] },
    ]);
  });
});

describe("tools from the plan", () => {
  const tighten = (id: string, limit: object, more = {}) =>
    item({ kind: "tighten", id, title: id, points: 2, unit: "N·m", limit, ...more });
  const nominal = (value: unknown) => ({ nominal: value, tolerance: { percent: 5 } });

  test("a torque comes from a torque tool, with every setting it has to reach", () => {
    const items = [
      tighten("a", nominal(11)),
      tighten("b", nominal({ cel: "model.terminalTorqueNm" })),
      tighten("c", nominal({ cel: "model.terminalTorqueNm * 2.0" })),
    ];
    const models = [model({ attributes: { terminalTorqueNm: 8.6 } })];
    expect(byKey(kitFor(plan(items), models, [unit("1")]), "tool:torque-wrench")).toMatchObject({
      name: "torque wrench",
      notes: [
        { code: "for-items", items: ["a", "b", "c"] },
        { code: "torque-settings", settings: ["8.6 N·m", "11 N·m"] },
      ],
      sources: ["Packs on a wall"],
    });
  });

  test("a class that several items name is packed once", () => {
    const instrument = { class: "multimeter" };
    const measure = { kind: "measure", unit: "V", limit: { min: 1 }, instrument };
    const items = ["one", "two"].map((id) => item({ ...measure, id, title: id }));
    const tools = kitFor(plan(items), [], []).items.filter(({ category }) => category === "tool");
    expect(tools).toHaveLength(1);
    expect(tools[0]).toMatchObject({ key: "tool:multimeter", amount: 1 });
  });

  test.each([
    ["battery-pack", true],
    ["inverter", false],
  ])("asked per inverter, with a %s on the job: left out %s", (kind, isLeftOut) => {
    const repeat = { per: "unit", ofKind: "inverter" };
    const items = [tighten("a", nominal(11), { repeat }), CONFIRM];
    const found = kitFor(plan(items), [model()], [unit("1", { kind })]);
    expect(byKey(found, "tool:torque-wrench") === undefined).toBe(isLeftOut);
  });
});

describe("what protects the crew", () => {
  const keys = (attributes: KitModel["attributes"]) =>
    kitFor(plan([CONFIRM]), [model({ attributes })], [unit("1")]).items.map(({ key }) => key);

  test.each([
    [25, false, false],
    [25.1, true, false],
    [33, true, false],
    [33.1, true, true],
  ])(
    "HSE INDG143 and L23 (from memory): %d kg asks for two %s, for an aid %s",
    (massKg, two, aid) => {
      expect(keys({ massKg }).includes("work:footwear")).toBe(two);
      expect(keys({ massKg }).includes("work:lifting-aid")).toBe(aid);
    },
  );

  test("a model without its mass is a gap, not a light one", () => {
    const found = kitFor(plan([CONFIRM]), [model()], [unit("1")]);
    expect(found.gaps).toContainEqual({ code: "no-mass", model: "W5" });
  });

  test("anchors bring the drill, eye protection and a mask; no anchors, none", () => {
    const found = kitFor(plan([CONFIRM]), [model({ kit: [line({})] })], [unit("1")]);
    expect(byKey(found, "work:hammer-drill")).toBeDefined();
    expect(byKey(found, "work:dust-mask")).toMatchObject({ perPerson: true, amount: 1 });
    expect(keys({ massKg: 20 })).not.toContain("work:hammer-drill");
  });

  test.each([
    ["dead", "work:lock-off", "work:insulating-gloves"],
    ["live", "work:insulating-gloves", "work:lock-off"],
  ])("an item with the supply %s brings %s and not %s", (supply, brought, not) => {
    const found = kitFor(plan([{ ...CONFIRM, supply }]), [], []);
    expect(byKey(found, brought)?.notes).toEqual([{ code: "for-items", items: ["Look"] }]);
    expect(byKey(found, not)).toBeUndefined();
  });
});

describe("the plan's own lines", () => {
  const planLine = (more: Partial<PlanKitLine>): PlanKitLine => ({
    ...{ id: "tag", category: "consumable", name: "Warning label", amount: 2 },
    ...{ countedIn: "piece", per: "unit", source: "Firm's practice", ...more },
  });
  const units = [unit("1"), unit("2"), unit("3", { kind: "inverter", modelCode: "H5" })];

  test.each([
    [{ per: "job" }, 2, false],
    [{ per: "unit" }, 6, false],
    [{ per: "unit", ofKind: "battery-pack" }, 4, false],
    [{ per: "person" }, 2, true],
  ] as const)("%j of three units is %d", (more, amount, perPerson) => {
    const found = kitFor(plan([CONFIRM], [planLine(more)]), [model()], units);
    expect(byKey(found, "plan:tag")).toMatchObject({ amount, perPerson });
  });

  test("per unit of a kind that is not there, it is left out", () => {
    const kit = [planLine({ ofKind: "gateway" })];
    expect(byKey(kitFor(plan([CONFIRM], kit), [model()], units), "plan:tag")).toBeUndefined();
  });

  test("a list that names a line twice is refused", () => {
    expect(() => plan([CONFIRM], [planLine({}), planLine({})])).toThrow(
      "must not name a line twice",
    );
  });
});

test("amounts of two lots of units add up, whatever their order, and keys stay unique", () => {
  const kit = [line({ amount: 3 }), line({ id: "cable", category: "cable", amount: 1.5 })];
  const models = [model({ kit, attributes: { massKg: 30 } }), model({ code: "H5", kit })];
  const anyUnit = fc.record({
    id: fc.uuid(),
    serial: fc.string({ minLength: 1 }),
    kind: fc.constantFrom("battery-pack", "inverter"),
    modelCode: fc.constantFrom("W5", "H5"),
    atSite: fc.boolean(),
  });
  const units = fc.uniqueArray(anyUnit, { maxLength: 12, selector: ({ id }) => id });
  const amountOf = (some: KitUnit[], key: string) =>
    byKey(kitFor(plan([CONFIRM]), models, some), key)?.amount ?? 0;
  fc.assert(
    fc.property(units, fc.nat(), (all, cut) => {
      const at = all.length === 0 ? 0 : cut % all.length;
      for (const key of ["model:W5:anchor", "model:W5:cable", "model:H5:anchor"]) {
        const apart = amountOf(all.slice(0, at), key) + amountOf(all.slice(at), key);
        expect(amountOf(all, key)).toBeCloseTo(apart, 9);
        expect(amountOf(all.toReversed(), key)).toBe(amountOf(all, key));
      }
      const keys = kitFor(plan([CONFIRM]), models, all).items.map((one) => one.key);
      expect(new Set(keys).size).toBe(keys.length);
    }),
  );
});
