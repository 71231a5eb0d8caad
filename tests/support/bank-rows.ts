// A bank of packs with a switch map, as the office enters it. The map is invented: the dial shows
// the pack's place less one, or plus one, and the last pack ends the chain.
import { expect } from "vitest";
import type { TestService } from "./app.ts";
import { addModel, addSite, install, type Made, receive } from "./stock.ts";

export const protocol = (id: string, add: number, maximum = 4) => ({
  id,
  name: id.toUpperCase(),
  packCount: { minimum: 1, maximum },
  settings: {
    form: "formula",
    parts: [
      { switch: "dial", rule: { by: "position", add } },
      { switch: "end", rule: { by: "ends", which: "last" } },
    ],
  },
  address: { switch: "dial" },
  gapsAllowed: false,
});

export const mapOf = (...protocols: object[]) => ({
  schema: "switch-map/1",
  id: "cairn",
  productModel: "CAIRN",
  source: "Cairn sheet, edition 2",
  switches: [
    { kind: "rotary", id: "dial", label: "Dial", positions: [..."012345"] },
    { kind: "termination", id: "end", label: "End", onIs: "up" },
  ],
  protocols,
});
export const SWITCH_MAP = mapOf(protocol("can-b", -1), protocol("can-c", 1));

export interface MadeBank {
  id: string;
  units: Made[];
  site: Made;
}

/** A bank whose packs stand in these places, given out in the order of their installation. */
export async function addBank(
  service: TestService,
  switchMap: object | null,
  places: number[],
  fields: object = {},
): Promise<MadeBank> {
  const office = service.as(service.firm.people.office);
  const site = await addSite(service);
  const model = await addModel(service, { switchMap });
  const body = { siteId: site.id, name: "Bank A", protocol: "can-b", ...fields };
  const reply = await office.post("/api/v1/banks").send(body);
  expect(reply.status, JSON.stringify(reply.body)).toBe(201);
  const units: Made[] = [];
  for (const _place of places) {
    units.push(await install(service, await receive(service, model.id), site));
  }
  const packs = places.map((position, at) => ({ unitId: units[at]!.id, position }));
  const put = office.put(`/api/v1/banks/${reply.body.id}/packs`).set("if-match", '"1"');
  expect((await put.send({ packs })).status).toBe(200);
  return { id: reply.body.id, units, site };
}
