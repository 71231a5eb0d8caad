import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { TestService } from "../support/app.ts";
import { ledgerOf, pointers } from "../support/reading.ts";
import { NOW, type Rows, SMALL_PLAN, startWork } from "../support/work-rows.ts";

let service: TestService;
let rows: Rows;
let siteId: string;
let planId: string;
let planVersionId: string;
let modelId: string;

beforeAll(async () => {
  ({ service, rows, siteId, planId, planVersionId, modelId } = await startWork());
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);
const installer = () => service.as(service.firm.people.installer);
const open = (fields: object = {}) =>
  office()
    .post("/api/v1/jobs")
    .send({ siteId, kind: "install", title: "Two packs", planVersionId, ...fields });
const unitIdsOf = async (jobId: string) =>
  (await office().get(`/api/v1/jobs/${jobId}`)).body.units.map(
    ({ unitId, position }: { unitId: string; position: number }) => [position, unitId],
  );
async function newUnits(count: number): Promise<string[]> {
  const ids: string[] = [];
  for (let index = 0; index < count; index += 1) ids.push(await rows.unit(modelId));
  return ids;
}
describe("opening a job", () => {
  test("pins the plan version, keeps the units' order, and begins the ledger", async () => {
    const unitIds = (await newUnits(3)).reverse();
    const reply = await open({ units: unitIds.map((unitId) => ({ unitId })) });
    expect(reply.status).toBe(201);
    expect(reply.body.reference).toMatch(/^J-2026-\d{4}$/);
    expect(reply.body).toMatchObject({
      kind: "install",
      state: "open",
      site: { id: siteId, timeZone: "Europe/London" },
      customer: { name: "Ida Rook" },
      planVersion: { id: planVersionId, planId, number: 1 },
      createdById: service.firm.people.office.id,
      createdAt: NOW.toISOString(),
      visits: [],
      openSnagCount: 0,
      closeOut: null,
      cancellation: null,
    });
    const read = await installer().get(reply.headers.location as string);
    expect([read.body, read.headers.etag]).toEqual([reply.body, '"1"']);
    expect(await unitIdsOf(reply.body.id)).toEqual(unitIds.map((id, index) => [index + 1, id]));
    const personId = service.firm.people.office.id;
    const planVersionSha256 = "0".repeat(64);
    const body = {
      kind: "install",
      personId,
      planVersionId,
      planVersionSha256,
      siteId,
      unitIds,
    };
    expect(await ledgerOf(service, reply.body.id)).toMatchObject([{ kind: "job.opened", body }]);
  });

  test("by plan takes the latest published version and keeps it", async () => {
    const manager = service.as(service.firm.people.manager);
    const { body: plan } = await manager
      .post("/api/v1/plans")
      .send({ code: "BY-PLAN", title: "By plan", document: SMALL_PLAN });
    const byPlan = { planVersionId: undefined, planId: plan.id };
    const early = await open(byPlan);
    expect([early.status, pointers(early)]).toEqual([422, ["/body/planId"]]);
    const draft = await open({ planVersionId: plan.draft.id });
    expect([draft.status, pointers(draft)]).toEqual([422, ["/body/planVersionId"]]);
    const first = await manager.post(`/api/v1/plans/${plan.id}/versions/1/publication`);
    const { body: one } = await open(byPlan);
    expect(one.planVersion).toMatchObject({
      id: first.body.id,
      code: "BY-PLAN",
      sha256: first.body.sha256,
    });
    await manager.post(`/api/v1/plans/${plan.id}/versions`).send({});
    expect((await open(byPlan)).body.planVersion.number).toBe(1);
    await manager.post(`/api/v1/plans/${plan.id}/versions/2/publication`);
    expect((await open(byPlan)).body.planVersion.number).toBe(2);
    const kept = await office().get(`/api/v1/jobs/${one.id}`);
    expect(kept.body.planVersion.number).toBe(1);
  });

  test("is refused with the pointers of what cannot be used", async () => {
    const archived = await rows.site({ archivedAt: NOW });
    const [unitId] = await newUnits(1);
    const cases: [object, string[]][] = [
      [{ siteId: uuidv7() }, ["/body/siteId"]],
      [{ siteId: archived.id }, ["/body/siteId"]],
      [{ planVersionId: uuidv7() }, ["/body/planVersionId"]],
      [{ planId }, ["/body/planVersionId"]],
      [{ planVersionId: undefined }, ["/body/planVersionId"]],
      [{ planVersionId: undefined, planId: uuidv7() }, ["/body/planId"]],
      [{ kind: "party" }, ["/body/kind"]],
      [{ title: "" }, ["/body/title"]],
      [{ units: [{ unitId }, { unitId: uuidv7() }] }, ["/body/units/1/unitId"]],
      [{ units: [{ unitId }, { unitId }] }, ["/body/units"]],
      [{ units: Array.from({ length: 61 }, () => ({ unitId: uuidv7() })) }, ["/body/units"]],
    ];
    for (const [fields, expected] of cases) {
      const reply = await open(fields);
      expect([reply.status, pointers(reply)]).toEqual([422, expected]);
    }
  });

  test("takes 60 units and happens once for one Idempotency-Key", async () => {
    const units = (await newUnits(60)).map((unitId) => ({ unitId }));
    const send = () => open({ units }).set("idempotency-key", "job-once-1");
    const [one, two] = await Promise.all([send(), send()]);
    expect([one.status, two.status, one.body.id === two.body.id]).toEqual([201, 201, true]);
    expect(one.body.units).toHaveLength(60);
    const more = await office()
      .post(`/api/v1/jobs/${one.body.id}/units`)
      .send({ unitId: (await newUnits(1))[0] });
    expect([more.status, more.body.type]).toEqual([409, "/problems/conflict"]);
  });

  test("is refused while a unit is live at another site", async () => {
    const other = await rows.site();
    const there = await rows.unit(modelId, { siteId: other.id, state: "installed" });
    const here = await rows.unit(modelId, { siteId, state: "installed" });
    const refused = await open({ units: [{ unitId: here }, { unitId: there }] });
    expect([refused.status, refused.body.type]).toEqual([409, "/problems/serial-live-elsewhere"]);
    expect(refused.body).toMatchObject({ unitId: there, site: { id: other.id } });
    expect((await open({ units: [{ unitId: here }] })).status).toBe(201);
    const swapped = await rows.unit(modelId, { state: "swapped" });
    expect((await open({ units: [{ unitId: swapped }] })).status).toBe(409);
  });
});

describe("a job", () => {
  test("is renamed only against the version that was read", async () => {
    const { body: job } = await open();
    const path = `/api/v1/jobs/${job.id}`;
    expect((await office().patch(path).send({ title: "A" })).status).toBe(428);
    const done = await office().patch(path).set("if-match", '"1"').send({ title: "Three packs" });
    expect([done.status, done.body.title, done.headers.etag]).toEqual([200, "Three packs", '"2"']);
    const late = await office().patch(path).set("if-match", '"1"').send({ title: "Late" });
    expect(late.status).toBe(412);
  });

  test("is cancelled with a reason, and its visits to come with it", async () => {
    const { body: job } = await open();
    const path = `/api/v1/jobs/${job.id}`;
    const crewId = await rows.crew("Cancelled crew", [await rows.person("Bo Ash")]);
    const day = (date: string) => ({
      crewId,
      startsAt: `${date}T08:00:00Z`,
      endsAt: `${date}T10:00:00Z`,
    });
    const past = await office().post(`${path}/visits`).send(day("2026-11-19"));
    const coming = await office().post(`${path}/visits`).send(day("2026-11-25"));
    expect((await office().post(`${path}/cancellation`).send({})).status).toBe(422);
    const reply = await office().post(`${path}/cancellation`).send({ reason: "House sold" });
    expect(reply.status).toBe(201);
    expect(reply.body).toMatchObject({
      state: "cancelled",
      cancellation: {
        cancelledAt: NOW.toISOString(),
        cancelledById: service.firm.people.office.id,
        reason: "House sold",
      },
    });
    const states = reply.body.visits.map(({ id, state }: { id: string; state: string }) => [
      id,
      state,
    ]);
    expect(states).toEqual([
      [past.body.id, "booked"],
      [coming.body.id, "cancelled"],
    ]);
    const body = { reason: "House sold", visitIds: [coming.body.id] };
    expect((await ledgerOf(service, job.id)).at(-1)).toMatchObject({ kind: "job.cancelled", body });
    const other = await open();
    const freed = await office()
      .post(`/api/v1/jobs/${other.body.id}/visits`)
      .send(day("2026-11-25"));
    expect(freed.status).toBe(201);
    const again = await office().post(`${path}/cancellation`).send({ reason: "Twice" });
    expect([again.status, again.body.type]).toEqual([409, "/problems/job-not-open"]);
  });
});
