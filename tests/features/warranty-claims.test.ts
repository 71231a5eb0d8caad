// A claim's way from draft to its end, over the API.
import { afterAll, beforeAll, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { addModel, receive } from "../support/stock.ts";

let service: TestService;
let unitId: string;
beforeAll(async () => {
  service = await startService();
  unitId = (await receive(service, (await addModel(service)).id)).id;
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);
const open = async () => {
  const reply = await office().post("/api/v1/warranty/claims").send({ unitId, fault: "Cell 7" });
  expect(reply.status, reply.text).toBe(201);
  return reply.body as { id: string; reference: string };
};
const step = (id: string, version: number, body: object) =>
  office().patch(`/api/v1/warranty/claims/${id}`).set("if-match", `"${version}"`).send(body);

test("goes from draft to settled, with the maker's answer and the times", async () => {
  const { id, reference } = await open();
  expect(reference).toMatch(/^W-\d{4}-\d{4}$/);
  const sent = await step(id, 1, { state: "sent", makerReference: "FS-4711" });
  expect(sent.body).toMatchObject({ state: "sent", next: ["accepted", "refused", "withdrawn"] });
  expect((await step(id, 2, { state: "accepted", note: "A new pack" })).status).toBe(200);
  const ended = await step(id, 3, { state: "settled" });
  expect(ended.body).toMatchObject({
    ...{ state: "settled", next: [], makerReference: "FS-4711", note: "A new pack" },
    ...{ sentAt: expect.any(String), answeredAt: expect.any(String), version: 4 },
    endedAt: expect.any(String),
  });
  const read = await office().get(`/api/v1/warranty/claims/${id}`);
  expect(read.body).toEqual(ended.body);
});

test("goes neither back nor past a step, and one of two at once is refused", async () => {
  const { id } = await open();
  expect((await step(id, 1, { state: "settled" })).status).toBe(409);
  const both = await Promise.all([
    step(id, 1, { state: "sent" }),
    step(id, 1, { state: "withdrawn" }),
  ]);
  const refused = both.filter(({ status }) => status !== 200);
  expect(refused).toHaveLength(1);
  expect([409, 412]).toContain(refused[0]!.status);
});

test("is listed by state and unit, and needs a unit and a job of the firm", async () => {
  const { id } = await open();
  const path = `/api/v1/warranty/claims?state=draft&unitId=${unitId}&limit=1`;
  const list = await office().get(path);
  expect(list.body.items.map((row: { id: string }) => row.id)).toEqual([id]);
  const strange = "01981f7e-5a3c-7000-8000-000000000001";
  for (const body of [
    { unitId: strange, fault: "x" },
    { unitId, jobId: strange, fault: "x" },
  ]) {
    const reply = await office().post("/api/v1/warranty/claims").send(body);
    expect(reply.status).toBe(422);
  }
});
