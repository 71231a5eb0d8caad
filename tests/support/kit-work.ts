// A service whose plan and product model have kit lines.
import { expect } from "vitest";
import { SMALL_PLAN, startWork } from "./work-rows.ts";

const KIT = [
  {
    ...{ id: "anchor", category: "anchor", name: "Through-bolt M10", amount: 4 },
    ...{ countedIn: "piece", stockCode: "BOLT-M10", supplied: false, source: "Sheet 3" },
  },
  {
    ...{ id: "bracket", category: "consumable", name: "Bracket", amount: 1 },
    ...{ countedIn: "piece", supplied: true, source: "Sheet 3" },
  },
];

const PLAN = {
  ...SMALL_PLAN,
  kit: [
    {
      ...{ id: "mask", category: "protective-equipment", name: "Mask", amount: 1 },
      ...{ countedIn: "piece", per: "person", stockCode: "MASK", source: "Firm's practice" },
    },
  ],
  stages: [
    {
      ...SMALL_PLAN.stages[0],
      items: [
        ...SMALL_PLAN.stages[0]!.items,
        {
          ...{ kind: "measure", id: "volts", title: "Open-circuit voltage", do: "Measure." },
          ...{ unit: "V", limit: { min: 1 }, holdPoint: true },
          instrument: { class: "multimeter" },
        },
      ],
    },
  ],
};

/** The work of `startWork`, with a crew of two, and a model and a plan that need things. */
export async function startKitWork() {
  const { service, rows, siteId } = await startWork();
  const planVersionId = (await rows.planVersion(PLAN)).id;
  const people = [await rows.person("Ada Finch"), await rows.person("Bo Lind")];
  const crewId = await rows.crew("Fell crew", people);
  const office = () => service.as(service.firm.people.office);
  const reply = await office()
    .post("/api/v1/product-models")
    .send({
      ...{ code: "HERON-W", name: "Heron W", maker: "Harrowmere", kind: "battery-pack" },
      ...{ attributes: { massKg: 20 }, serialMask: "HN*{8}", firmwareScheme: "semver", kit: KIT },
    });
  expect(reply.status).toBe(201);
  const modelId: string = reply.body.id;
  const openJob = async (units: string[], kind = "install"): Promise<string> => {
    const body = { siteId, planVersionId, kind, title: "Packs" };
    const opened = await office()
      .post("/api/v1/jobs")
      .send({ ...body, units: units.map((unitId) => ({ unitId })) });
    expect(opened.status).toBe(201);
    return opened.body.id;
  };
  return { service, rows, siteId, planVersionId, crewId, modelId, openJob };
}

export type KitWork = Awaited<ReturnType<typeof startKitWork>>;
