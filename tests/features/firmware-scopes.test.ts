import { parse } from "csv-parse/sync";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { startService, type TestService } from "../support/app.ts";
import { addFleet, postRelease, postTarget } from "../support/fleet.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService({ now: () => new Date("2026-11-25T09:00:00Z") });
});
afterAll(async () => service.stop());

const manager = () => service.as(service.firm.people.manager);
const inOwn = <T>(work: Parameters<typeof inFirm<T>>[2]) =>
  inFirm(service.db, service.firm.firmId, work);
const due = async (query = "") => {
  const { body } = await manager().get(`/api/v1/firmware/due?limit=200${query}`);
  return body.items as { id: string; units: { to: string; isHeld: boolean }[] }[];
};

describe("targets of a region and releases of a revision", () => {
  test("the most special target counts where it applies", async () => {
    const { modelId, siteIds } = await addFleet(service, "semver", ["1.0.0", "1.0.0"]);
    await postTarget(service, { modelId, level: "1.1.0", severity: "routine" });
    await inOwn((tx) => tx.site.updateMany({ where: { id: siteIds[0]! }, data: { region: "XA" } }));
    const release = await postRelease(service, { modelId, level: "1.2.0", severity: "routine" });
    const put = await manager()
      .put(`/api/v1/product-models/${modelId}/firmware-target`)
      .send({ releaseId: release.body.id, region: "XA" });
    expect(put.status, JSON.stringify(put.body)).toBe(201);
    const sites = await due(`&modelId=${modelId}`);
    const levels = new Map(sites.map(({ id, units }) => [id, units.map(({ to }) => to)]));
    expect(levels.get(siteIds[0]!)).toEqual(["1.2.0"]);
    expect(levels.get(siteIds[1]!)).toEqual(["1.1.0"]);
    const counts = await manager().get(`/api/v1/firmware/due/counts?modelId=${modelId}`);
    expect(counts.body).toMatchObject({ sites: 2, units: 2 });
  });

  test("units of another hardware revision are not due, those of no known one are", async () => {
    const { modelId, unitIds } = await addFleet(service, "semver", ["1.0.0", "1.0.0", "1.0.0"]);
    await inOwn(async (tx) => {
      for (const [index, hardwareRevision] of ["A", "B"].entries()) {
        await tx.unit.updateMany({ where: { id: unitIds[index]! }, data: { hardwareRevision } });
      }
    });
    const release = await manager()
      .post("/api/v1/firmware/releases")
      .send({
        ...{ modelId, level: "1.1.0", severity: "routine", releasedOn: "2026-11-01" },
        hardwareRevisions: ["A"],
      });
    expect(release.status, JSON.stringify(release.body)).toBe(201);
    await manager()
      .put(`/api/v1/product-models/${modelId}/firmware-target`)
      .send({ releaseId: release.body.id });
    expect(await due(`&modelId=${modelId}`)).toHaveLength(2);
  });

  test.each([
    [{ fromMin: "2.0.0" }, "/body/fromMin"],
    [{ fromMin: "1.0.0", fromBelow: "0.9.0" }, "/body/fromBelow"],
    [
      { companions: [{ modelId: "019ac4a1-0000-7cc1-9d6a-0c8f6f0b7a11", min: "1.0.0" }] },
      "/body/companions/0/modelId",
    ],
  ])("a release that nothing can reach is refused: %j", async (more, pointer) => {
    const { modelId } = await addFleet(service, "semver", ["1.0.0"]);
    const { status, body } = await manager()
      .post("/api/v1/firmware/releases")
      .send({
        ...{ modelId, level: "1.5.0", severity: "routine", releasedOn: "2026-11-01", ...more },
      });
    expect([status, body.errors?.[0].pointer]).toEqual([422, pointer]);
  });
});

test("a site's steps go over the stepping stone, or say what is missing", async () => {
  const { modelId, siteIds } = await addFleet(service, "semver", ["1.0.0"]);
  await postRelease(service, { modelId, level: "1.5.0", severity: "routine" });
  const release = await manager()
    .post("/api/v1/firmware/releases")
    .send({
      ...{ modelId, level: "2.0.0", severity: "routine", releasedOn: "2026-11-01" },
      fromMin: "1.5.0",
    });
  await manager()
    .put(`/api/v1/product-models/${modelId}/firmware-target`)
    .send({ releaseId: release.body.id });
  const path = `/api/v1/sites/${siteIds[0]}/firmware-steps`;
  const { body } = await manager().get(path);
  expect(body.state).toBe("in-order");
  expect(body.steps.map(({ from, to }: { from: string; to: string }) => [from, to])).toEqual([
    ["1.0.0", "1.5.0"],
    ["1.5.0", "2.0.0"],
  ]);
  const stone = await manager().get(`/api/v1/firmware/releases?modelId=${modelId}`);
  const first = stone.body.items.find(({ level }: { level: string }) => level === "1.5.0");
  await manager()
    .post(`/api/v1/firmware/releases/${first.id}/withdrawal`)
    .send({ reason: "Loses the clock" });
  const [site] = (await manager().get(`/api/v1/firmware/due?modelId=${modelId}`)).body.items;
  expect(site.blockedBy).toMatchObject([{ code: "no-safe-order" }]);
  const stuck = await manager().get(path);
  expect(stuck.body).toMatchObject({ state: "no-order", steps: [] });
  expect(stuck.body.sentence.length).toBeGreaterThan(20);
});

test("the list leaves as CSV that reads back, formulas defused (RFC 4180, OWASP)", async () => {
  const { modelId, siteIds } = await addFleet(service, "semver", ["1.0.0", null]);
  await postTarget(service, { modelId, level: "2.0.0", severity: "safety" });
  await inOwn((tx) =>
    tx.site.updateMany({ where: { id: siteIds[0]! }, data: { addressLine: '=1+2;"A", b' } }),
  );
  const reply = await manager().get(`/api/v1/exports/due.csv?modelId=${modelId}`);
  expect(reply.headers["content-type"]).toBe("text/csv; charset=utf-8");
  const rows = parse(reply.text, { bom: true, columns: true }) as Record<string, string>[];
  expect(rows).toHaveLength(2);
  const first = rows.find(({ from }) => from === "1.0.0");
  expect(first).toMatchObject({ to: "2.0.0", severity: "safety", state: "due" });
  expect(first?.address).toBe('\'=1+2;"A", b');
  expect((await service.anonymous.get("/api/v1/exports/due.csv")).status).toBe(401);
});
