import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { recordFirmwareReading } from "../../src/features/firmware/level-store.ts";
import { decideAllRings } from "../../src/runs/firmware-rings.ts";
import { startService, type TestService } from "../support/app.ts";
import { addFleet, postRelease } from "../support/fleet.ts";

let service: TestService;
let today = new Date("2026-11-25T09:00:00Z");
beforeAll(async () => {
  service = await startService({ now: () => today });
});
afterAll(async () => service.stop());

const manager = () => service.as(service.firm.people.manager);
const installer = () => service.as(service.firm.people.installer);
const inOwn = <T>(work: Parameters<typeof inFirm<T>>[2]) =>
  inFirm(service.db, service.firm.firmId, work);
const due = async (query = "") => {
  const { body } = await manager().get(`/api/v1/firmware/due?limit=200${query}`);
  return body.items as { id: string; units: { to: string; isHeld: boolean }[] }[];
};
const read = (unitId: string, level: string, at = today, jobId?: string) =>
  inOwn((tx) =>
    recordFirmwareReading(tx, {
      ...{ unitId, level, source: "api", readAt: at, ...(jobId ? { jobId } : {}) },
    }),
  );

describe("a roll-out through rings", () => {
  let modelId: string;
  let siteIds: string[];
  let unitIds: string[];
  let targets: { id: string; state: string; ring: string; version: number }[];
  const rollout = async () => {
    const { body } = await manager().get(`/api/v1/product-models/${modelId}/firmware-rollout`);
    return body.items as ((typeof targets)[number] & {
      heldReason: string | null;
      progress: { verdict: string; updated: number; failed: number; sentence: string } | null;
    })[];
  };
  const decideWith = (version: number) => ({ "if-match": `"${version}"` });

  beforeAll(async () => {
    const levels = Array.from({ length: 6 }, () => "1.0.0");
    ({ modelId, siteIds, unitIds } = await addFleet(service, "semver", levels));
    const rings = [];
    for (const [index, name] of ["Trial", "Rest"].entries()) {
      const ring = { name, position: index + 1, updatedLeast: 2, soakDays: 3, failureMost: 0.1 };
      const made = await manager().post("/api/v1/firmware/rings").send(ring);
      expect(made.status, JSON.stringify(made.body)).toBe(201);
      rings.push(made.body.id);
    }
    for (const [ring, sites] of [
      [rings[0], siteIds.slice(0, 3)],
      [rings[1], siteIds.slice(3)],
    ]) {
      const put = await manager()
        .put(`/api/v1/firmware/rings/${ring}/sites`)
        .send({ siteIds: sites });
      expect(put.status).toBe(204);
    }
    const release = await postRelease(service, { modelId, level: "2.0.0", severity: "important" });
    const started = await manager()
      .post(`/api/v1/product-models/${modelId}/firmware-rollout`)
      .send({ releaseId: release.body.id });
    expect(started.status, JSON.stringify(started.body)).toBe(201);
    targets = started.body.items;
  });

  test("opens the first ring alone: nothing is due elsewhere", async () => {
    expect(targets.map(({ ring, state }) => [ring, state])).toEqual([
      ["Trial", "open"],
      ["Rest", "waiting"],
    ]);
    expect((await due()).map(({ id }) => id).toSorted()).toEqual(siteIds.slice(0, 3).toSorted());
    const counts = await manager().get("/api/v1/firmware/due/counts");
    expect(counts.body).toMatchObject({ sites: 3, units: 3 });
  });

  test("passes a ring when enough are updated long enough, and waits for a word", async () => {
    await read(unitIds[0]!, "2.0.0");
    await read(unitIds[1]!, "2.0.0");
    expect(await decideAllRings(service.db, today)).toEqual([]);
    today = new Date("2026-11-28T09:00:00Z");
    const decided = await decideAllRings(service.db, today);
    expect(decided.map(({ decision }) => decision)).toEqual(["passed"]);
    expect((await rollout()).map(({ state }) => state)).toEqual(["passed", "waiting"]);
    const early = await manager()
      .post(`/api/v1/product-models/${modelId}/firmware-rollout/completion`)
      .send();
    expect(early.status).toBe(409);
    const [, rest] = await rollout();
    const opened = await manager()
      .post(`/api/v1/firmware/targets/${rest!.id}/opening`)
      .set(decideWith(rest!.version));
    expect(opened.status, JSON.stringify(opened.body)).toBe(201);
    expect(await due()).toHaveLength(4);
  });

  test("is held when its failures are more than chance explains, and tells why", async () => {
    const { firmId } = service.firm;
    const jobs = await inOwn((tx) => tx.job.findMany({ where: { firmId, siteId: siteIds[3]! } }));
    const jobId = jobs[0]!.id;
    const note = `${"x".repeat(199)}\u{1f477} and more than a title holds`;
    for (const unitId of unitIds.slice(3, 5)) {
      const told = await installer()
        .post(`/api/v1/jobs/${jobId}/failed-updates`)
        .send({ unitId, note });
      expect(told.status, JSON.stringify(told.body)).toBe(201);
      // Cut before the character that would not fit whole.
      expect(told.body.title).toBe("x".repeat(199));
      expect(told.body.reference).toMatch(/^N-2026-\d{4}$/);
    }
    const [, rest] = await rollout();
    expect(rest!.state).toBe("held");
    expect(rest!.heldReason).toContain("2 of 2 updates failed");
    const held = (await due()).filter(({ id }) => siteIds.slice(3).includes(id));
    expect(held).toHaveLength(3);
    expect(held.every(({ units }) => units.every(({ isHeld }) => isHeld))).toBe(true);
    const twice = await installer()
      .post(`/api/v1/jobs/${jobId}/failed-updates`)
      .send({ unitId: unitIds[3] });
    expect(twice.status).toBe(409);
  });

  test("goes on by a manager's word, and counts from there", async () => {
    const [, rest] = await rollout();
    today = new Date("2026-12-01T09:00:00Z");
    await manager()
      .post(`/api/v1/firmware/targets/${rest!.id}/opening`)
      .set(decideWith(rest!.version));
    for (const unitId of unitIds.slice(3)) await read(unitId, "2.0.0");
    today = new Date("2026-12-05T09:00:00Z");
    await decideAllRings(service.db, today);
    expect((await rollout()).map(({ state }) => state)).toEqual(["passed", "passed"]);
    const done = await manager()
      .post(`/api/v1/product-models/${modelId}/firmware-rollout/completion`)
      .send();
    expect(done.status, JSON.stringify(done.body)).toBe(201);
    expect(done.body.items).toHaveLength(1);
    expect((await due()).map(({ id }) => id)).toEqual([siteIds[2]]);
  });

  test("shows what failed on the fleet's page with the exact interval", async () => {
    const page = await manager().get("/fleet").set("accept", "text/html");
    expect(page.text).toContain("2 of 2 updates on jobs failed in 180 days: 100 %");
  });
});

describe("a nonconformance", () => {
  test("is closed only with its cause and an effect check; so says the database", async () => {
    const list = await manager().get("/api/v1/nonconformances?kind=firmware-update");
    const [one] = list.body.items;
    const path = `/api/v1/nonconformances/${one.id}`;
    const close = (body: object, version = one.version) =>
      manager()
        .patch(path)
        .set({ "if-match": `"${version}"` })
        .send(body);
    const bare = await close({ state: "closed" });
    expect([bare.status, bare.body.errors[0].pointer]).toEqual([422, "/body/cause"]);
    await close({ cause: "The medium held two files", correction: "One file a medium" });
    const seen = { verdict: "effective", note: "Three updates since without failure" };
    const judged = await manager().post(`${path}/effect-checks`).send(seen);
    expect(judged.status, judged.text).toBe(201);
    const closed = await manager().get(path);
    expect(closed.body).toMatchObject({ state: "closed", closedAt: today.toISOString() });
    expect((await close({ title: "x" })).status).toBe(412);
    await expect(
      inOwn((tx) =>
        tx.nonconformance.create({
          data: {
            ...{ firmId: service.firm.firmId, id: uuidv7(), reference: "N-0", kind: "work" },
            ...{ title: "t", state: "closed" },
          },
        }),
      ),
    ).rejects.toThrow();
    const other = await service.addFirm("birch");
    expect((await service.as(other.people.manager).get(path)).status).toBe(404);
  });
});
