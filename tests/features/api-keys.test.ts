import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { SCOPES } from "../../src/access/scopes.ts";
import { ACCESS } from "../../src/access.ts";
import { readToken, tokenText } from "../../src/features/api-keys/key-token.ts";
import { SCOPE_NAMES } from "../../src/features/api-keys/scope-names.ts";
import { startService, type TestService } from "../support/app.ts";
import { addFleet, postTarget } from "../support/fleet.ts";

let service: TestService;
let clock = new Date("2026-11-25T09:00:00Z");
beforeAll(async () => {
  service = await startService({ now: () => clock });
  const { modelId } = await addFleet(service, "semver", ["1.0.0", "2.0.0"]);
  await postTarget(service, { modelId, level: "2.0.0", severity: "safety" }, "2026-11-20");
});
afterAll(() => service.stop());

const owner = () => service.as(service.firm.people.owner);
const make = async (body: object) => {
  const reply = await owner()
    .post("/api/v1/api-keys")
    .send({ name: "Partner", ...body });
  expect(reply.status, JSON.stringify(reply.body)).toBe(201);
  return reply.body as { id: string; token: string };
};

test("the names of the scopes are those that the access tables open", () => {
  expect([...SCOPE_NAMES].toSorted()).toEqual(Object.keys(SCOPES).toSorted());
});

test("a token reads back as what it was made of, and nothing else is one", () => {
  const token = {
    firmId: "019ac4a1-1111-7cc1-9d6a-0c8f6f0b7a11",
    keyId: "019ac4a1-2222-7cc1-9d6a-0c8f6f0b7a12",
    secret: "a".repeat(43),
  };
  expect(readToken(tokenText(token))).toEqual(token);
  for (const text of ["", "hp_", `${tokenText(token)}x`, "eyJhbGciOiJIUzI1NiJ9.e30.x"]) {
    expect(readToken(text)).toBeUndefined();
  }
});

describe("a key", () => {
  test("reads what its scopes open, and nothing that its maker may do besides", async () => {
    const { token } = await make({ scopes: ["read:fleet", "read:due"] });
    const partner = service.as({ token });
    const counts = await partner.get("/api/v1/fleet/counts");
    expect(counts.status, JSON.stringify(counts.body)).toBe(200);
    expect(counts.body.exposure).toEqual([
      { severity: "safety", term: "over", units: 1, sites: 1 },
    ]);
    expect(counts.body.levels).toHaveLength(2);
    expect((await partner.get("/api/v1/firmware/due")).body.items).toHaveLength(1);
    const customers = await partner.get("/api/v1/customers");
    expect(customers.status).toBe(403);
    expect(customers.body.scopes).toEqual(["read:customers"]);
    const people = await partner.get("/api/v1/people");
    expect([people.status, people.body.detail]).toEqual([
      403,
      "This is not for keys; the key has read:fleet, read:due.",
    ]);
    expect((await partner.post("/api/v1/api-keys").send({})).status).toBe(403);
    const page = await partner.get("/fleet").set("accept", "text/html");
    expect(page.status).toBe(403);
  });

  test("opens not one operation outside its scopes, tried on all of them", async () => {
    const { token } = await make({ scopes: ["read:units"] });
    const partner = service.as({ token });
    const document = service.app.swagger() as {
      paths: Record<string, Record<string, { operationId?: string; security?: unknown[] }>>;
    };
    let tried = 0;
    for (const [path, verbs] of Object.entries(document.paths)) {
      for (const [verb, { operationId = "", security }] of Object.entries(verbs)) {
        const isOpen = (SCOPES["read:units"] as readonly string[]).includes(operationId);
        if (!(verb in partner)) continue;
        if (isOpen || security?.length === 0 || ACCESS[operationId] === "anyone") continue;
        const at = path.replace(/\{\w+\}/g, "01900000-0000-7000-8000-00000000dead");
        const reply = await partner[verb as "get"](at);
        expect([operationId, reply.status]).toEqual([operationId, 403]);
        tried += 1;
      }
    }
    expect(tried).toBeGreaterThan(100);
  });

  test("is listed page by page, the latest first", async () => {
    const made = [];
    for (let n = 0; n < 3; n += 1) made.unshift((await make({ scopes: ["read:due"] })).id);
    const first = await owner().get("/api/v1/api-keys?limit=2");
    const second = await owner().get(`/api/v1/api-keys?limit=2&cursor=${first.body.next}`);
    const ids = [...first.body.items, ...second.body.items].map(({ id }: { id: string }) => id);
    expect(ids.slice(0, 3)).toEqual(made);
    expect(first.headers.link).toContain('rel="next"');
  });

  test("is known by its text alone, which nobody sees again", async () => {
    const { token, id } = await make({ scopes: ["read:due"] });
    const wrong = `${token.slice(0, -1)}${token.endsWith("A") ? "B" : "A"}`;
    expect((await service.as({ token: wrong }).get("/api/v1/firmware/due")).status).toBe(401);
    const list = await owner().get("/api/v1/api-keys");
    expect(JSON.stringify(list.body)).not.toContain(token.slice(-43));
    await service.as({ token }).get("/api/v1/firmware/due");
    const used = (await owner().get("/api/v1/api-keys")).body.items.find(
      (key: { id: string }) => key.id === id,
    );
    expect(used.lastUsedAt).toBe(clock.toISOString());
  });

  test("opens nothing once it has run out or was revoked", async () => {
    const past = await owner()
      .post("/api/v1/api-keys")
      .send({ name: "Late", scopes: ["read:due"], expiresAt: "2026-11-25T08:00:00Z" });
    expect(past.status).toBe(422);
    const { token } = await make({ scopes: ["read:due"], expiresAt: "2026-11-25T10:00:00Z" });
    const other = await make({ scopes: ["read:due"] });
    expect((await service.as({ token }).get("/api/v1/firmware/due")).status).toBe(200);
    expect((await service.as(other).get("/api/v1/firmware/due")).status).toBe(200);
    expect((await owner().post(`/api/v1/api-keys/${other.id}/revocation`)).status).toBe(201);
    expect((await owner().post(`/api/v1/api-keys/${other.id}/revocation`)).status).toBe(409);
    clock = new Date("2026-11-25T10:00:01Z");
    expect((await service.as({ token }).get("/api/v1/firmware/due")).status).toBe(401);
    expect((await service.as(other).get("/api/v1/firmware/due")).status).toBe(401);
  });

  test("that asks too often is told how long to wait", async () => {
    const { token } = await make({ scopes: ["read:fleet"] });
    const partner = service.as({ token });
    let last = 200;
    for (let asked = 0; asked < 601 && last === 200; asked += 1) {
      last = (await partner.get("/api/v1/firmware/rings")).status;
    }
    const refused = await partner.get("/api/v1/firmware/rings");
    expect(refused.status).toBe(429);
    expect(Number(refused.headers["retry-after"])).toBeGreaterThan(0);
  });

  test("is made by owners alone, and another firm's is not found", async () => {
    const { id } = await make({ scopes: ["read:due"] });
    const manager = service.as(service.firm.people.manager);
    expect((await manager.post("/api/v1/api-keys").send({})).status).toBe(403);
    const other = await service.addFirm("birch");
    const reply = await service.as(other.people.owner).post(`/api/v1/api-keys/${id}/revocation`);
    expect(reply.status).toBe(404);
  });
});
