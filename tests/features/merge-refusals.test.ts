import pg from "pg";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestFirm, type TestService } from "../support/app.ts";
import { mergeDesk } from "../support/merge-desk.ts";
import { addSite, type Made, SITE } from "../support/stock.ts";

let service: TestService;
let other: TestFirm;
let desk: Awaited<ReturnType<typeof mergeDesk>>;
beforeAll(async () => {
  service = await startService();
  other = await service.addFirm("birch");
  desk = await mergeDesk(service);
});
afterAll(() => service.stop());

describe("undoing a merge is refused", () => {
  test("with the name of whoever changed the site that stayed", async () => {
    const { from, into } = await desk.twoSites();
    const { body } = await desk.merge("sites", from.id, into.id);
    const edit = service.as(service.firm.people.owner).patch(`/api/v1/sites/${into.id}`);
    expect((await edit.set("if-match", '"2"').send({ name: "Barn" })).status).toBe(200);
    const reply = await desk.undo("sites", body);
    expect([reply.status, reply.body.reasons]).toEqual([
      409,
      [`owner person changed ${into.reference}`],
    ]);
  });

  test("with what has moved on: a unit that was taken away since", async () => {
    const { from, into, unit, job } = await desk.twoSites();
    const { body } = await desk.merge("sites", from.id, into.id);
    const removal = { reason: "Faulty", jobId: job.id };
    await service
      .as(service.firm.people.installer)
      .post(`/api/v1/units/${unit.id}/removal`)
      .send(removal);
    const reply = await desk.undo("sites", body);
    expect([reply.status, reply.body.reasons]).toEqual([409, ["1 of unit changed or moved on"]]);
    expect((await desk.read(`/api/v1/sites/${from.id}`)).mergedIntoId).toBe(into.id);
  });

  test("for a merge of another kind or another firm, which is not there", async () => {
    const { from, into } = await desk.twoSites();
    const { body } = await desk.merge("sites", from.id, into.id);
    expect((await desk.undo("customers", body)).status).toBe(404);
    const theirs = service.as(other.people.office);
    const path = `/api/v1/sites/${into.id}/merges/${body.id}/undo`;
    expect((await theirs.post(path).send()).status).toBe(404);
  });
});

describe("a merge is refused", () => {
  test("into itself, into nothing, into another firm's, and of another firm's", async () => {
    const { from, into } = await desk.twoSites();
    const theirs = await addSite(service, {}, other);
    for (const intoId of [from.id, crypto.randomUUID(), theirs.id]) {
      const reply = await desk.merge("sites", from.id, intoId);
      expect([reply.status, reply.body.errors[0].pointer]).toEqual([422, "/body/intoId"]);
    }
    expect((await desk.merge("sites", theirs.id, into.id)).status).toBe(404);
  });

  test("of sites of different customers, or with banks of one name", async () => {
    const { from, into } = await desk.twoSites();
    const strange = await addSite(service);
    expect((await desk.merge("sites", from.id, strange.id)).body.detail).toContain(
      "different customers",
    );
    await desk.post("/api/v1/banks", { siteId: into.id, name: "Garage" });
    const reply = await desk.merge("sites", from.id, into.id);
    expect([reply.status, reply.body.detail]).toEqual([
      409,
      expect.stringContaining("a bank named Garage"),
    ]);
  });

  test("of what is part of another already; that is neither edited nor brought back", async () => {
    const { from, into, customerId } = await desk.twoSites();
    const third: Made = await desk.post("/api/v1/sites", { ...SITE, customerId });
    await desk.merge("sites", from.id, into.id);
    expect((await desk.merge("sites", from.id, third.id)).body.detail).toContain(
      `merged into ${into.reference}`,
    );
    expect((await desk.merge("sites", third.id, from.id)).status).toBe(409);
    const back = desk.office().patch(`/api/v1/sites/${from.id}`).set("if-match", '"2"');
    expect((await back.send({ archived: false })).status).toBe(409);
  });

  test.each(["installer", "manager", "auditor"] as const)("to the %s", async (role) => {
    const { from, into } = await desk.twoSites();
    const reply = await service
      .as(service.firm.people[role])
      .post(`/api/v1/sites/${from.id}/merge`)
      .send({ intoId: into.id });
    expect(reply.status).toBe(403);
  });
});

describe("in the database", () => {
  let client: pg.Client;
  beforeAll(async () => {
    client = new pg.Client({ connectionString: service.appUrl });
    await client.connect();
    await client.query("SELECT set_config('app.firm_id', $1, false)", [service.firm.firmId]);
  });
  afterAll(() => client.end());

  test("everything that points at a site or a customer may be moved by a merge", async () => {
    const { rows } = await client.query(
      `SELECT c.conrelid::regclass || '.' || a.attname AS link,
         has_column_privilege(c.conrelid, a.attname, 'UPDATE') AS movable
       FROM pg_constraint c JOIN pg_attribute a ON a.attrelid = c.conrelid
         AND a.attnum = ANY (c.conkey) AND a.attname <> 'firm_id'
       WHERE c.contype = 'f' AND c.confrelid IN ('site'::regclass, 'customer'::regclass)`,
    );
    expect(rows.length).toBeGreaterThan(7);
    expect(rows.filter(({ movable }) => !movable).map(({ link }) => link)).toEqual([]);
  });

  test("without a merge jobs, installed units, their history and surveys stay", async () => {
    const { from, into, job, unit } = await desk.twoSites();
    const at = `SET site_id = '${into.id}' WHERE site_id = '${from.id}'`;
    await expect(client.query(`UPDATE job ${at}`)).rejects.toThrow(
      "keeps its plan version and its site",
    );
    await expect(
      client.query(
        `UPDATE unit ${at.replace("WHERE", ", bank_id = NULL, bank_position = NULL WHERE")}`,
      ),
    ).rejects.toThrow("installed at another site");
    await expect(client.query(`UPDATE unit_event ${at}`)).rejects.toThrow(
      "kept as they were written",
    );
    await expect(client.query(`UPDATE survey ${at}`)).rejects.toThrow("kept as they were written");
    await expect(
      client.query(`UPDATE unit_event SET note = 'x' WHERE unit_id = '${unit.id}'`),
    ).rejects.toThrow("denied");
    const made = await desk.merge("sites", from.id, into.id);
    await client.query("SELECT set_config('app.merge_id', $1, false)", [made.body.id]);
    const third = await addSite(service);
    await expect(
      client.query(`UPDATE job SET site_id = '${third.id}' WHERE id = '${job.id}'`),
    ).rejects.toThrow("keeps its plan version and its site");
    await client.query("SELECT set_config('app.merge_id', '', false)");
  });

  test("what an edit replaced is only added to: nobody rewrites it", async () => {
    await expect(client.query("UPDATE change_record SET person_id = NULL")).rejects.toThrow(
      "denied",
    );
    await expect(client.query("DELETE FROM change_record")).rejects.toThrow("denied");
  });
});
