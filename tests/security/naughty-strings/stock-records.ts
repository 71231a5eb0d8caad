// Instruments, consumables, models and what their makers say of them.
import type { TestService } from "../../support/app.ts";
import { rowsIn } from "../../support/work-rows.ts";
import { line, lines, type RecordKind } from "./records.ts";

const KIT_LINE = {
  ...{ id: "anchor", category: "anchor", name: "", amount: 4, countedIn: "piece" },
  ...{ source: "", note: "", supplied: false },
};

const KINDS: RecordKind[] = [
  {
    ...{ name: "instrument", to: "/api/v1/instruments", list: "/api/v1/instruments" },
    texts: { reference: line(40), name: line(120), serial: line(64) },
    ...{ unique: ["reference"], rest: () => ({ instrumentClass: "multimeter" }) },
    ...{ one: (id) => `/api/v1/instruments/${id}`, page: (id) => `/instruments/${id}` },
  },
  {
    ...{ name: "consumable", to: "/api/v1/consumables", list: "/api/v1/consumables" },
    ...{ texts: { name: line(120) }, csv: "consumables" },
    rest: (count) => ({ code: `BOLT-${count}`, countedIn: "piece" }),
    ...{ one: (id) => `/api/v1/consumables/${id}`, page: (id) => `/goods-in/consumables/${id}` },
  },
];

const movements = (consumableId: string): RecordKind => ({
  ...{ name: "movement", to: `/api/v1/consumables/${consumableId}/movements` },
  list: `/api/v1/consumables/${consumableId}/movements`,
  texts: { place: line(60), deliveryNote: line(60), note: lines(500) },
  ...{ rest: () => ({ kind: "received", amount: 2 }), namesItself: false },
  reads: { reply: () => undefined },
  page: () => `/goods-in/consumables/${consumableId}`,
  sharesPage: true,
});

const MODEL: RecordKind = {
  ...{ name: "product model", to: "/api/v1/product-models", list: "/api/v1/product-models" },
  texts: {
    ...{ name: line(120), maker: line(120), "attributes/colour": { ...line(200), asTyped: true } },
    ...{ "kit/0/name": line(120), "kit/0/source": line(200), "kit/0/note": line(300) },
  },
  rest: (count) => ({
    ...{ code: `MODEL-${count}`, kind: "battery-pack", serialMask: "LA#{6}" },
    ...{ firmwareScheme: "semver", attributes: { colour: "" }, kit: [KIT_LINE] },
  }),
  ...{ csv: "product-models", one: (id) => `/api/v1/product-models/${id}` },
  page: (id) => `/product-models/${id}`,
};

const releases = (modelId: string): RecordKind => ({
  ...{ name: "firmware release", to: "/api/v1/firmware/releases" },
  list: "/api/v1/firmware/releases",
  texts: { notes: lines(4000), fileName: line(200), "hardwareRevisions/0": line(40) },
  rest: (count) => ({
    ...{ modelId, level: `1.0.${count}`, severity: "routine", releasedOn: "2026-11-20" },
    hardwareRevisions: [""],
  }),
  one: (id) => `/api/v1/firmware/releases/${id}`,
});

export async function stockKinds(service: TestService): Promise<RecordKind[]> {
  const modelId = await rowsIn(service).model();
  const consumable = await service
    .as(service.firm.people.owner)
    .post("/api/v1/consumables")
    .send({ code: "BOLT-M10", countedIn: "piece", name: "Bolt" });
  return [...KINDS, movements(consumable.body.id), MODEL, releases(modelId)];
}
