// Whoever becomes an auditor and nothing else has days from the start; without an access an auditor
// sees nothing and is told whom to ask.
import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { withinAudit } from "../../src/db/audit-scope.ts";
import { inFirm, inFirmPipelined } from "../../src/db/scope.ts";
import { startService, type TestService } from "../support/app.ts";
import { rowsOf } from "../support/behind.ts";
import { addPerson, editPerson, signIn, tokenOf } from "../support/people.ts";

let service: TestService;
let clock = new Date("2026-03-10T10:00:00Z");
beforeAll(async () => {
  service = await startService({ now: () => clock });
});
afterAll(() => service.stop());

const owner = () => service.as(service.firm.people.owner);
const accessesOf = async (id: string) =>
  (await owner().get(`/api/v1/people/${id}/audit-access`)).body.items;
const rows = (sql: string, values: unknown[] = []) => rowsOf(service.ownerUrl, sql, values);

async function giveRoles(id: string, roles: string[]): Promise<void> {
  const { version } = (await owner().get(`/api/v1/people/${id}`)).body;
  expect((await editPerson(service, id, version, { roles })).status).toBe(200);
}

describe("an access begins", () => {
  test("with the person: thirty days of the whole firm, given by who added them", async () => {
    const { id } = await addPerson(service, { roles: ["auditor"] });
    const [access, ...others] = await accessesOf(id);
    expect(others).toEqual([]);
    expect(access).toMatchObject({ from: "2026-03-10", until: "2026-04-09", outside: true });
    expect(access.scope).toEqual({ period: null, modelIds: [], siteIds: [] });
    expect(access.givenByName).toBe("owner person");
  });

  test("until the day that was named, within what an access may last", async () => {
    const { id } = await addPerson(service, { roles: ["auditor"], auditUntil: "2026-03-12" });
    expect((await accessesOf(id))[0].until).toBe("2026-03-12");
    const add = (fields: object) => addPerson(service, { roles: ["auditor"], ...fields });
    await expect(add({ auditUntil: "2026-03-09" })).rejects.toThrow("/body/auditUntil");
    await expect(add({ auditUntil: "2027-04-01" })).rejects.toThrow("at most 366 days");
    const office = { roles: ["auditor", "office"], auditUntil: "2026-03-12" };
    await expect(add(office)).rejects.toThrow("is for an auditor alone");
  });

  test("with the roles, and what stands from before stays", async () => {
    const { id } = await addPerson(service, { roles: ["auditor", "office"] });
    expect(await accessesOf(id)).toEqual([]);
    await giveRoles(id, ["auditor"]);
    const [access] = await accessesOf(id);
    expect(access.until).toBe("2026-04-09");
    await giveRoles(id, ["office"]);
    await giveRoles(id, ["auditor"]);
    expect(await accessesOf(id)).toEqual([access]);
  });

  test("anew where the one before has ended", async () => {
    const { id } = await addPerson(service, { roles: ["auditor"] });
    await giveRoles(id, ["office"]);
    clock = new Date("2026-05-10T10:00:00Z");
    await giveRoles(id, ["auditor"]);
    const [now, before] = await accessesOf(id);
    expect([now.until, before.until]).toEqual(["2026-06-09", "2026-04-09"]);
    expect(before.withdrawnByName).toBe("owner person");
    clock = new Date("2026-03-10T10:00:00Z");
  });
});

/** An auditor as from before the rule, or from outside the service. */
async function withoutAny(email: string): Promise<string> {
  const { id } = await addPerson(service, { email, roles: ["auditor", "office"] });
  await rows("UPDATE person SET roles = '{auditor}' WHERE id = $1", [id]);
  return id;
}

describe("an auditor without any", () => {
  test("signs in, reads whom to ask, and sees nothing", async () => {
    await withoutAny("none@alder.example");
    const auditor = service.as(await tokenOf(service, "none@alder.example"));
    const page = await auditor.get("/").set("accept", "text/html");
    expect(page.status).toBe(403);
    const sentence =
      "No access to alder was given to you. Ask owner person (owner@alder.example) for one.";
    expect(page.text).toContain(sentence);
    for (const path of ["/api/v1/jobs", "/api/v1/people", "/sites", "/api/v1/session"]) {
      expect((await auditor.get(path)).body, path).not.toHaveProperty("items");
      expect((await auditor.get(path)).status, path).toBe(403);
    }
    expect((await auditor.delete("/api/v1/session")).status).toBe(204);
  });

  test("finds nothing in the database either, by whichever door", async () => {
    const { firmId, people } = service.firm;
    const customer = { name: "Rowan Test", address: "1 Rowan Row" };
    const made = await owner().post("/api/v1/customers").send(customer);
    expect(made.status, JSON.stringify(made.body)).toBe(201);
    const counts = (personId: string) =>
      withinAudit(
        undefined,
        async () => [
          await inFirm(service.db, firmId, (tx) => tx.customer.count()),
          await inFirmPipelined(service.db, firmId, async (pipeline) => {
            const text = "SELECT count(*)::int AS n FROM customer";
            return (await pipeline.run({ text }))[0]?.rows[0].n;
          }),
        ],
        personId,
      );
    expect(await counts(people.auditor.id)).toEqual([1, 1]);
    expect(await counts(await withoutAny("nothing@alder.example"))).toEqual([0, 0]);
    const path = `/api/v1/people/${people.auditor.id}/audit-access`;
    // Withdrawn anywhere, it is over in the next transaction, whatever a server still remembers.
    expect((await owner().delete(path)).status).toBe(204);
    expect(await counts(people.auditor.id)).toEqual([0, 0]);
    const siteIds = ["019ac000-0000-7000-8000-000000000000"];
    await rows(
      `INSERT INTO audit_access (firm_id, id, person_id, outside, from_on, until_on, site_ids,
         given_by_id, given_at) VALUES ($1, '019ac000-0000-7000-8000-000000000001', $2, true,
         '2026-03-10', '2026-03-20', $3, $4, now())`,
      [firmId, people.auditor.id, siteIds, people.owner.id],
    );
    expect(await counts(people.auditor.id)).toEqual([0, 0]);
  });
});

test("auditors from before an update have thirty days from it, and what stood stays", async () => {
  const folder = "prisma/migrations/20261129150000_audit_access_for_all";
  const sql = readFileSync(`${folder}/migration.sql`, "utf8");
  const given = sql.slice(sql.indexOf("ALTER TABLE firm NO FORCE"));
  const id = await withoutAny("before@alder.example");
  const other = await addPerson(service, { roles: ["auditor"], auditUntil: "2026-03-11" });
  await rows(given);
  const [access] = await accessesOf(id);
  expect(Date.parse(access.until) - Date.parse(access.from)).toBe(30 * 86_400_000);
  expect(access).toMatchObject({ outside: true, givenByName: "owner person" });
  expect((await accessesOf(other.id)).map(({ until }: { until: string }) => until)).toEqual([
    "2026-03-11",
  ]);
  // Its id lies in the order of time: what is given after it counts.
  const path = `/api/v1/people/${id}/audit-access`;
  await owner().put(path).send({ outside: true, until: "2026-03-30" });
  expect((await accessesOf(id))[0].until).toBe("2026-03-30");
  expect((await signIn(service, "before@alder.example")).status).toBe(201);
});
