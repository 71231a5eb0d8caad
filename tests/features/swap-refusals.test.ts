import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { pointersOf } from "../support/replies.ts";
import {
  addModel,
  addSite,
  install,
  type Made,
  moveUnit,
  nextNumber,
  readLife,
  receive,
} from "../support/stock.ts";

let service: TestService;
let model: Made;
beforeAll(async () => {
  service = await startService();
  model = await addModel(service);
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);
const read = (id: string) => readLife(service, { id });
const stock = () => receive(service, model.id);
const swap = (old: { id: string }, body: object) =>
  moveUnit(service, old, "swap", { reason: "Cell 7 does not balance", ...body });

async function installed(): Promise<{ unit: Made; site: Made }> {
  const [unit, site] = [await stock(), await addSite(service)];
  await install(service, unit, site);
  return { unit, site };
}

describe("a swap", () => {
  test("of one unit for two at the same time succeeds for exactly one", async () => {
    const { unit: old, site } = await installed();
    const fresh = [await stock(), await stock()];
    const replies = await Promise.all(fresh.map(({ id }) => swap(old, { newUnitId: id })));
    expect(replies.map(({ status }) => status).sort()).toEqual([201, 409]);
    const won = fresh[replies.findIndex(({ status }) => status === 201)]!;
    const there = await office().get(`/api/v1/units?siteId=${site.id}`);
    expect(there.body.items.map((unit: { id: string }) => unit.id)).toEqual([won.id]);
    expect((await read(old.id)).replacedBy).toHaveLength(1);
  });

  test("of two units for the same new one at the same time succeeds for exactly one", async () => {
    const places = [await installed(), await installed()];
    const fresh = await stock();
    const replies = await Promise.all(
      places.map(({ unit }) => swap(unit, { newUnitId: fresh.id })),
    );
    expect(replies.map(({ status }) => status).sort()).toEqual([201, 409]);
    const lost = replies.findIndex(({ status }) => status === 409);
    expect(replies[lost]!.body.type).toBe("/problems/serial-live-elsewhere");
    expect(await read(places[lost]!.unit.id)).toMatchObject({
      state: "installed",
      siteId: places[lost]!.site.id,
    });
  });

  test("both ways round at the same time succeeds for at most one and blocks nobody", async () => {
    const [one, two] = [await installed(), await installed()];
    const replies = await Promise.all([
      swap(one.unit, { newUnitId: two.unit.id }),
      swap(two.unit, { newUnitId: one.unit.id }),
    ]);
    expect(replies.map(({ status }) => status)).toEqual([409, 409]);
  });

  test("of a typed serial that two installers type at the same time succeeds for one", async () => {
    const places = [await installed(), await installed()];
    const newSerial = `FS${nextNumber()}`;
    const replies = await Promise.all(places.map(({ unit }) => swap(unit, { newSerial })));
    expect(replies.map(({ status }) => status).sort()).toEqual([201, 409]);
    const listed = await office().get(`/api/v1/units?serial=${newSerial}`);
    expect(listed.body.items).toHaveLength(1);
  });

  test("is undone as a whole when it is refused", async () => {
    const { unit: old } = await installed();
    const newSerial = `FS${nextNumber()}`;
    const reply = await swap(old, { newSerial, at: "2020-01-01T00:00:00Z" });
    expect([reply.status, pointersOf(reply)]).toEqual([422, ["/body/at"]]);
    expect((await office().get(`/api/v1/units?serial=${newSerial}`)).body.items).toEqual([]);
    expect((await read(old.id)).state).toBe("installed");
  });

  test("refuses a new unit that cannot take the place, by pointer or by name", async () => {
    const { unit: old } = await installed();
    const other = await service.addFirm("birch");
    const theirs = await receive(service, (await addModel(service, {}, other)).id, {}, other);
    const meter = await receive(service, (await addModel(service, { kind: "meter" })).id);
    const elsewhere = await installed();
    for (const [body, status, pointers] of [
      [{ newUnitId: theirs.id }, 422, ["/body/newUnitId"]],
      [{ newUnitId: old.id }, 422, ["/body/newUnitId"]],
      [{ newSerial: old.serial }, 422, ["/body/newSerial"]],
      [{ newUnitId: meter.id }, 422, ["/body/newUnitId"]],
      [{ newSerial: "FS12" }, 422, ["/body/newSerial"]],
      [{ newSerial: "FS1234", modelId: old.id }, 422, ["/body/modelId"]],
      [{ newUnitId: meter.id, newSerial: "FS1234" }, 422, ["/body/newUnitId"]],
      [{}, 422, ["/body/newUnitId"]],
      [{ newUnitId: meter.id, modelId: model.id }, 422, ["/body/modelId"]],
      [{ newSerial: "FS1234", reason: " " }, 422, ["/body/reason"]],
      [{ newUnitId: elsewhere.unit.id }, 409, undefined],
    ] as const) {
      const reply = await swap(old, body);
      expect([reply.status, pointersOf(reply)], JSON.stringify(body)).toEqual([status, pointers]);
    }
    expect((await read(old.id)).version).toBe(2);
  });

  test("of a unit that is not installed, or was swapped out, is refused", async () => {
    const { unit: old } = await installed();
    const [fresh, idle] = [await stock(), await stock()];
    expect((await swap(idle, { newUnitId: fresh.id })).status).toBe(409);
    await swap(old, { newUnitId: fresh.id });
    const again = await swap(old, { newUnitId: idle.id });
    expect([again.status, again.body.state]).toEqual([409, "swapped"]);
    const reinstalled = await office()
      .post(`/api/v1/units/${old.id}/installation`)
      .send({ siteId: (await addSite(service)).id });
    expect([reinstalled.status, reinstalled.body.type]).toEqual([409, "/problems/conflict"]);
  });
});
