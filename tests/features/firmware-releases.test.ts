import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { addFleet, postRelease, postTarget } from "../support/fleet.ts";
import { pointers } from "../support/reading.ts";

let service: TestService;
const NOW = new Date("2026-11-25T12:00:00Z");
beforeAll(async () => {
  service = await startService({ now: () => NOW });
});
afterAll(() => service.stop());

const manager = () => service.as(service.firm.people.manager);
const newModel = async (scheme: "semver" | "dotted" | "debian" = "semver") =>
  (await addFleet(service, scheme, ["1.0.0"])).modelId;
const targetPath = (modelId: string) => `/api/v1/product-models/${modelId}/firmware-target`;
const withdraw = (id: string) => manager().post(`/api/v1/firmware/releases/${id}/withdrawal`);

describe("a release", () => {
  test("is recorded, read, changed against its version, and listed by model", async () => {
    const modelId = await newModel();
    const made = await postRelease(service, { modelId, level: "1.5.0" });
    expect(made.status).toBe(201);
    const path = made.headers.location as string;
    expect((await manager().get(path)).body).toEqual(made.body);
    expect((await manager().patch(path).send({ severity: "safety" })).status).toBe(428);
    const edit = { severity: "safety", notes: "Cut-out mended", fileSha256: "a".repeat(64) };
    const done = await manager().patch(path).set("if-match", '"1"').send(edit);
    expect([done.status, done.headers.etag]).toEqual([200, '"2"']);
    expect(done.body).toMatchObject(edit);
    const late = await manager().patch(path).set("if-match", '"1"').send({ notes: null });
    expect(late.status).toBe(412);
    const listed = await manager().get(`/api/v1/firmware/releases?modelId=${modelId}`);
    expect(listed.body.items).toEqual([done.body]);
    const level = await manager().patch(path).set("if-match", '"2"').send({ level: "1.6.0" });
    expect(level.status).toBe(422);
  });

  test.each([
    ["semver", "v1.2"],
    ["semver", "1.2.3-hotfix"],
    ["dotted", "1.2.3.4.5"],
    ["dotted", "spring"],
    ["debian", "1.2-3"],
  ] as const)("of a %s model is refused with the field for the level %s", async (scheme, level) => {
    const reply = await postRelease(service, { modelId: await newModel(scheme), level });
    expect([reply.status, pointers(reply)]).toEqual([422, ["/body/level"]]);
  });

  test("stands once for its level, and only for a model of the firm", async () => {
    const modelId = await newModel();
    await postRelease(service, { modelId, level: "1.5.0" });
    const twin = await postRelease(service, { modelId, level: "1.5.0" });
    expect([twin.status, twin.body.type]).toEqual([409, "/problems/conflict"]);
    const other = await service.addFirm("hazel");
    const theirs = await service
      .as(other.people.manager)
      .post("/api/v1/firmware/releases")
      .send({ modelId, level: "1.6.0", severity: "safety", releasedOn: "2026-11-01" });
    expect([theirs.status, pointers(theirs)]).toEqual([422, ["/body/modelId"]]);
  });

  test("of another firm is not there", async () => {
    const made = await postRelease(service, { modelId: await newModel(), level: "1.5.0" });
    const other = await service.addFirm("rowan");
    const theirs = service.as(other.people.manager);
    const path = made.headers.location as string;
    expect((await theirs.get(path)).status).toBe(404);
    expect((await theirs.patch(path).set("if-match", '"1"').send({ notes: "x" })).status).toBe(404);
    expect((await theirs.post(`${path}/withdrawal`)).status).toBe(404);
  });

  test("is recorded by owner and manager only", async () => {
    const body = { modelId: await newModel(), level: "9.0.0", severity: "routine" };
    const installer = service.as(service.firm.people.installer);
    const reply = await installer.post("/api/v1/firmware/releases").send(body);
    expect([reply.status, reply.body.roles]).toEqual([403, ["owner", "manager"]]);
  });

  test("that is withdrawn makes nothing due from then on, and cannot become a target", async () => {
    const { modelId } = await addFleet(service, "semver", ["1.0.0"]);
    const { body: target } = await postTarget(service, { modelId, level: "1.5.0" });
    const due = () => manager().get(`/api/v1/firmware/due?modelId=${modelId}`);
    expect((await due()).body.items).toHaveLength(1);
    const done = await withdraw(target.releaseId);
    expect([done.status, done.body.withdrawnOn]).toEqual([201, "2026-11-25"]);
    expect((await due()).body.items).toEqual([]);
    expect((await manager().get(targetPath(modelId))).body.withdrawnOn).toBe("2026-11-25");
    expect((await withdraw(target.releaseId)).status).toBe(409);
    const again = await manager()
      .put(targetPath(modelId))
      .set("if-match", '"1"')
      .send({ releaseId: target.releaseId });
    expect([again.status, pointers(again)]).toEqual([422, ["/body/releaseId"]]);
    const withdrawn = await manager().get("/api/v1/firmware/releases?withdrawn=true");
    expect(withdrawn.body.items.map((row: { id: string }) => row.id)).toContain(target.releaseId);
  });
});

describe("a target", () => {
  // Common practice, no source: 7, 30 and 90 days, counted from 2026-11-25.
  test.each([
    ["safety", "2026-12-02"],
    ["important", "2026-12-25"],
    ["routine", "2027-02-23"],
  ] as const)("of severity %s is due on %s when no day is given", async (severity, dueOn) => {
    const target = await postTarget(service, {
      modelId: await newModel(),
      level: "1.6.0",
      severity,
    });
    expect(target.body.dueOn).toBe(dueOn);
  });

  test("counts from the release where that comes out later, and is not due before it", async () => {
    const modelId = await newModel();
    const release = {
      modelId,
      level: "2.0.0",
      severity: "safety",
      releasedOn: "2026-12-10",
    } as const;
    const early = await postRelease(service, release);
    const refused = await manager()
      .put(targetPath(modelId))
      .send({ releaseId: early.body.id, dueOn: "2026-12-09" });
    expect([refused.status, pointers(refused)]).toEqual([422, ["/body/dueOn"]]);
    const set = await manager().put(targetPath(modelId)).send({ releaseId: early.body.id });
    expect(set.body.dueOn).toBe("2026-12-17");
  });

  test("is set once without If-Match and moved only with the right one", async () => {
    const modelId = await newModel();
    const release = (await postRelease(service, { modelId, level: "2.0.0" })).body;
    const put = (etag?: string) => {
      const request = manager().put(targetPath(modelId));
      return (etag ? request.set("if-match", etag) : request).send({ releaseId: release.id });
    };
    expect((await manager().get(targetPath(modelId))).status).toBe(404);
    expect((await put('"1"')).status).toBe(412);
    const twins = await Promise.all([put(), put()]);
    expect(twins.map(({ status }) => status).sort()).not.toEqual([201, 201]);
    expect(twins.filter(({ status }) => status === 201)).toHaveLength(1);
    expect((await put()).status).toBe(428);
    expect((await put('"1"')).headers.etag).toBe('"2"');
    expect((await put('"1"')).status).toBe(412);
  });

  test("takes a release of its own model and a manager or owner", async () => {
    const [modelId, otherModel] = [await newModel(), await newModel()];
    const strange = (await postRelease(service, { modelId: otherModel, level: "2.0.0" })).body.id;
    const reply = await manager().put(targetPath(modelId)).send({ releaseId: strange });
    expect([reply.status, pointers(reply)]).toEqual([422, ["/body/releaseId"]]);
    const office = service.as(service.firm.people.office);
    expect((await office.put(targetPath(modelId)).send({ releaseId: strange })).status).toBe(403);
    const other = await service.addFirm("aspen");
    const theirs = service.as(other.people.manager);
    expect((await theirs.put(targetPath(modelId)).send({ releaseId: strange })).status).toBe(404);
  });
});
