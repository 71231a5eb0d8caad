import Fastify from "fastify";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { SCOPES } from "../../src/access/scopes.ts";
import { ACCESS } from "../../src/access.ts";
import { guardRoutes } from "../../src/web/access.ts";
import { startService, type TestService } from "../support/app.ts";

interface Operation {
  operationId: string;
  "x-roles"?: unknown;
  "x-key-scopes"?: string[];
  requestBody?: { content: Record<string, { schema: Record<string, unknown> }> };
}

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.stop());

describe("the access table", () => {
  test("stops the start for a route that it does not name", () => {
    const app = Fastify();
    guardRoutes(app, { known: "anyone" }, {}, {});
    const handler = async () => "x";
    app.get("/known", { schema: { operationId: "known" }, handler });
    expect(() => app.get("/unnamed", { handler })).toThrow("has no rule");
    expect(() => app.get("/other", { schema: { operationId: "other" }, handler })).toThrow(
      "has no rule",
    );
  });

  test("stops the start for a rule that no route has", async () => {
    const app = Fastify();
    guardRoutes(app, { gone: "anyone" }, {}, {});
    await expect(app.ready()).rejects.toThrow("operations that no route has: gone");
  });

  test("holds for every operation of the interface: nobody unsigned, no other role", async () => {
    const document = service.app.swagger() as {
      paths: Record<string, Record<string, { operationId?: string }>>;
    };
    const id = "01900000-0000-7000-8000-00000000dead";
    let checked = 0;
    for (const [path, verbs] of Object.entries(document.paths)) {
      for (const [verb, { operationId = "" }] of Object.entries(verbs)) {
        const rule = ACCESS[operationId];
        expect(rule, operationId).toBeDefined();
        if (rule === undefined || rule === "anyone") continue;
        const url = path.replaceAll(/\{[^}]+\}/g, id);
        const unsigned = await service.app.inject({ method: verb.toUpperCase() as "GET", url });
        expect(unsigned.statusCode, `${operationId} unsigned`).toBe(401);
        checked += 1;
        if (rule === "everyone") continue;
        for (const [role, { token }] of Object.entries(service.firm.people)) {
          if (rule.includes(role as "owner")) continue;
          const reply = await service.app.inject({
            method: verb.toUpperCase() as "GET",
            url,
            headers: { authorization: `Bearer ${token}` },
          });
          expect(reply.statusCode, `${operationId} as ${role}`).toBe(403);
        }
      }
    }
    expect(checked).toBeGreaterThan(60);
  });

  test("holds for HEAD as it does for the GET beside it", async () => {
    const url = "/api/v1/mails";
    const head = (token: string) =>
      service.app.inject({ method: "HEAD", url, headers: { authorization: `Bearer ${token}` } });
    expect((await service.app.inject({ method: "HEAD", url })).statusCode).toBe(401);
    expect((await head(service.firm.people.installer.token)).statusCode).toBe(403);
    expect((await head(service.firm.people.office.token)).statusCode).toBe(200);
  });
});

describe("the OpenAPI document", () => {
  test("is version 3.1 and names every operation once, with a summary, a tag and a refusal", async () => {
    const reply = await service.anonymous.get("/openapi.json");
    expect(reply.body.openapi).toMatch(/^3\.1\./);
    const operations = Object.values(reply.body.paths as object).flatMap((verbs) =>
      Object.values(verbs as object),
    );
    const ids = operations.map((operation) => operation.operationId);
    expect(new Set(ids).size).toBe(ids.length);
    for (const operation of operations) {
      expect(operation.summary, operation.operationId).toBeTruthy();
      expect(operation.tags, operation.operationId).toHaveLength(1);
      expect(Object.keys(operation.responses).some((status) => status.startsWith("4"))).toBe(true);
    }
  });

  test("says problem+json for refusals and gives examples of bodies", async () => {
    const { paths } = (await service.anonymous.get("/openapi.json")).body;
    const post = paths["/api/v1/jobs/{id}/answers"].post;
    expect(Object.keys(post.responses["422"].content)).toEqual(["application/problem+json"]);
    expect(JSON.stringify(paths["/api/v1/customers"].post.requestBody)).toContain("examples");
  });

  test("says of each operation, and so of what it takes and shows, whose it is", async () => {
    const { paths } = (await service.anonymous.get("/openapi.json")).body;
    const operations = Object.values(paths as Record<string, Record<string, Operation>>).flatMap(
      (verbs) => Object.values(verbs),
    );
    expect(operations.length).toBeGreaterThan(200);
    for (const operation of operations) {
      expect([operation.operationId, operation["x-roles"]]).toEqual([
        operation.operationId,
        ACCESS[operation.operationId],
      ]);
      const scopes = Object.entries<readonly string[]>(SCOPES)
        .filter(([, opened]) => opened.includes(operation.operationId))
        .map(([scope]) => scope);
      expect(operation["x-key-scopes"] ?? []).toEqual(scopes);
    }
    // What a body may hold is closed: a field that is not named is nobody's to set.
    const open = operations.filter(({ requestBody }) => {
      const schema = requestBody?.content["application/json"]?.schema;
      return schema?.type === "object" && schema.additionalProperties !== false;
    });
    // A calculation's fields are those of its own page, a plan's those of its JSON Schema.
    expect(open.map(({ operationId }) => operationId)).toEqual(["calculate", "putPlanDocument"]);
  });

  test("can be browsed", async () => {
    const reply = await service.anonymous.get("/docs/").redirects(2);
    expect(reply.status).toBe(200);
    expect(reply.text).toContain("swagger");
  });
});
