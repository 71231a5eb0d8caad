// Consumables by count and their movements.
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestFirm, type TestService } from "../support/app.ts";
import { idsOf, nextOf, pointers } from "../support/reading.ts";

let service: TestService;
let other: TestFirm;

beforeAll(async () => {
  service = await startService();
  other = await service.addFirm("birch");
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);
const manager = () => service.as(service.firm.people.manager);
const installer = () => service.as(service.firm.people.installer);

describe("consumables", () => {
  let number = 0;
  const takeUp = async (more: object = {}) => {
    number += 1;
    const body = { code: `BOLT-${number}`, name: "Bolt", countedIn: "piece", ...more };
    return office().post("/api/v1/consumables").send(body);
  };
  const move = async (id: string, body: object, client = office()) =>
    client.post(`/api/v1/consumables/${id}/movements`).send({ place: "Depot", ...body });

  test("are the sum of their movements by place, and low below their least amount", async () => {
    const { body } = await takeUp({ leastAmount: 50, countedIn: "m", name: "Cable 25 mm²" });
    await move(body.id, { kind: "received", amount: 60.5, deliveryNote: "DN-9" });
    await move(body.id, { kind: "used", amount: 10.1 });
    const moved = await move(body.id, { kind: "moved", amount: 5, toPlace: "Van 2" });
    expect(moved.body).toMatchObject({
      amount: 50.4,
      isLow: false,
      places: [
        { place: "Depot", amount: 45.4 },
        { place: "Van 2", amount: 5 },
      ],
    });
    const counted = await move(body.id, { kind: "counted", amount: 44.9 });
    expect(counted.body).toMatchObject({ amount: 49.9, isLow: true });
    const list = await office().get(`/api/v1/consumables/${body.id}/movements`);
    const amounts = list.body.items.map(({ amount }: { amount: number }) => amount);
    expect(amounts).toEqual([-0.5, 5, -5, -10.1, 60.5]);
  });

  test("do not fall below nothing at a place, also when two take the last at once", async () => {
    const { body } = await takeUp();
    await move(body.id, { kind: "received", amount: 4 });
    const replies = await Promise.all([
      move(body.id, { kind: "used", amount: 3 }),
      move(body.id, { kind: "used", amount: 3 }),
    ]);
    expect(replies.map(({ status }) => status).sort()).toEqual([201, 409]);
    const refused = replies.find(({ status }) => status === 409);
    expect(refused?.body).toMatchObject({
      there: 1,
      detail: expect.stringContaining("Count them"),
    });
  });

  test("add up to what a list in memory says, whatever happens to them", async () => {
    const { body } = await takeUp();
    const step = fc.record({
      kind: fc.constantFrom("received", "used", "returned", "written-off", "counted"),
      amount: fc.integer({ min: 1, max: 9 }),
      place: fc.constantFrom("A", "B"),
    });
    const sign = { received: 1, returned: 1, used: -1, "written-off": -1 } as const;
    const [steps] = fc.sample(fc.array(step, { minLength: 25, maxLength: 25 }), {
      numRuns: 1,
      seed: 20261127,
    }) as [{ kind: keyof typeof sign | "counted"; amount: number; place: string }[]];
    const there: Record<string, number> = { A: 0, B: 0 };
    for (const { kind, amount, place } of steps) {
      const reply = await move(body.id, { kind, amount, place });
      const next = kind === "counted" ? amount : there[place]! + sign[kind] * amount;
      expect(reply.status).toBe(next < 0 ? 409 : 201);
      if (next >= 0) there[place] = next;
    }
    const final = await office().get(`/api/v1/consumables/${body.id}`);
    expect(final.body.amount).toBe(there.A! + there.B!);
  });

  test.each([
    [{ kind: "used", amount: 0 }, "/body/amount"],
    [{ kind: "used", amount: 1.2345 }, "/body/amount"],
    [{ kind: "moved", amount: 1 }, "/body/toPlace"],
    [{ kind: "moved", amount: 1, toPlace: "Depot" }, "/body/toPlace"],
    [{ kind: "received", amount: 1, toPlace: "Van" }, "/body/toPlace"],
    [{ kind: "received", amount: 1, jobId: "019ac4a1-1111-7cc1-9d6a-0c8f6f0b7a11" }, "/body/jobId"],
    [{ kind: "used", amount: 1, jobId: "019ac4a1-1111-7cc1-9d6a-0c8f6f0b7a11" }, "/body/jobId"],
  ])("a movement %j is refused at %s", async (body, pointer) => {
    const made = await takeUp();
    expect(pointers(await move(made.body.id, body))).toEqual([pointer]);
  });

  test("are edited with what was seen, archived, and listed by code", async () => {
    const { body, headers } = await takeUp({ code: "ZZ-CLIP" });
    const path = `/api/v1/consumables/${body.id}`;
    expect((await takeUp({ code: "ZZ-CLIP" })).status).toBe(409);
    expect((await office().patch(path).send({ name: "Clip" })).status).toBe(428);
    const edit = office()
      .patch(path)
      .set("if-match", headers.etag as string);
    expect((await edit.send({ archived: true, leastAmount: 3 })).body).toMatchObject({
      ...{ archived: true, leastAmount: 3, version: 2 },
    });
    const stale = office().patch(path).set("if-match", '"1"').send({ name: "Clip" });
    expect((await stale).status).toBe(412);
    expect(idsOf(await office().get("/api/v1/consumables?code=zz-"))).toEqual([]);
    expect(idsOf(await office().get("/api/v1/consumables?code=zz-&archived=true"))).toEqual([
      body.id,
    ]);
    const page = await office().get("/api/v1/consumables?limit=2");
    const codes = page.body.items.map(({ code }: { code: string }) => code);
    expect(codes).toEqual([...codes].sort());
    expect((await office().get(nextOf(page))).body.items[0].code > codes[1]).toBe(true);
  });

  test("are taken up by the office alone and belong to one firm", async () => {
    const { body } = await takeUp();
    const reply = await installer()
      .post("/api/v1/consumables")
      .send({ code: "X", name: "X", countedIn: "piece" });
    expect(reply.status).toBe(403);
    const theirs = service.as(other.people.office);
    expect((await theirs.get(`/api/v1/consumables/${body.id}`)).status).toBe(404);
    expect((await move(body.id, { kind: "received", amount: 1 }, theirs)).status).toBe(404);
    expect((await move(body.id, { kind: "received", amount: 1 }, manager())).status).toBe(403);
  });
});
