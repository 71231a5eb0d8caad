// What each reply tells browsers, caches and proxies. The header fields and their values are those
// that OWASP ASVS 5.0.0, chapters V3, V4, V13 and V14, asks for.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { PASSWORD, startService, type TestService } from "../support/app.ts";
import { type LoggedService, startLogged } from "../support/kept-log.ts";

let service: TestService;
let behindProxy: LoggedService;
beforeAll(async () => {
  service = await startService();
  const environment = { PUBLIC_URL: "https://alder.example", TRUST_PROXY: "true" };
  behindProxy = await startLogged(service, environment);
});
afterAll(async () => {
  await behindProxy.app.close();
  await service.stop();
});

/** A page, a reply and a refusal of the interface, a file, and an address that is none. */
const EVERYWHERE = ["/sign-in", "/api/v1/session", "/assets/mark.svg", "/openapi.json", "/nowhere"];
const ownSession = () => service.as(service.firm.people.office).get("/api/v1/session");

describe("headers", () => {
  test("every reply says how a browser may treat it", async () => {
    const replies = await Promise.all(EVERYWHERE.map((path) => service.anonymous.get(path)));
    for (const { headers } of [...replies, await ownSession()]) {
      expect(headers["x-content-type-options"]).toBe("nosniff");
      expect(headers["referrer-policy"]).toBe("no-referrer");
      const policy = Object.fromEntries(
        String(headers["content-security-policy"])
          .split(";")
          .map((part) => part.split(" ", 1).concat(part.slice(part.indexOf(" ") + 1))),
      );
      expect(policy).toMatchObject({
        ...{ "default-src": "'self'", "script-src": "'self'", "style-src": "'self'" },
        ...{ "object-src": "'none'", "base-uri": "'none'", "frame-ancestors": "'none'" },
      });
    }
  });

  test("behind TLS every reply asks for TLS for a year, subdomains too", async () => {
    for (const path of EVERYWHERE) {
      const { headers } = await behindProxy.agent.get(path);
      const asked = String(headers["strict-transport-security"]);
      expect(Number(/max-age=(\d+)/.exec(asked)?.[1])).toBeGreaterThanOrEqual(365 * 24 * 3600);
      expect(asked).toContain("includeSubDomains");
    }
    const plain = await service.anonymous.get("/sign-in");
    expect(plain.headers["strict-transport-security"]).toBeUndefined();
  });

  test("no reply lets another origin read it", async () => {
    for (const path of EVERYWHERE) {
      const reply = await service.anonymous.get(path).set("origin", "https://evil.example");
      expect(reply.headers["access-control-allow-origin"]).toBeUndefined();
      expect(reply.headers["cross-origin-resource-policy"]).toBe("same-origin");
    }
  });

  test("what is not said otherwise stays out of every cache", async () => {
    expect((await ownSession()).headers["cache-control"]).toBe("no-store");
    const list = await service.as(service.firm.people.office).get("/api/v1/customers");
    expect([list.status, list.headers["cache-control"]]).toEqual([200, "no-store"]);
    expect((await service.anonymous.get("/sign-in")).headers["cache-control"]).toBe("no-store");
    const asset = await service.anonymous.get("/assets/mark.svg");
    expect(asset.headers["cache-control"]).toContain("max-age=3600");
  });

  test("signing out empties the browser's cache", async () => {
    const { email } = service.firm.people.auditor;
    const opened = await service.anonymous
      .post("/api/v1/session")
      .send({ email, password: PASSWORD });
    const out = await service.as({ token: opened.body.accessToken }).delete("/api/v1/session");
    expect([out.status, out.headers["clear-site-data"]]).toEqual([204, '"cache"']);
  });

  test("texts say their character set", async () => {
    for (const path of ["/sign-in", "/openapi.json", "/tablet/"]) {
      const { headers } = await service.anonymous.get(path);
      expect(headers["content-type"]).toMatch(
        /^(?:text\/html|application\/json); ?charset=utf-8$/i,
      );
    }
  });
});

describe("requests", () => {
  test("no folder is listed, and TRACE is not answered", async () => {
    for (const folder of ["/assets/", "/assets", "/assets/..%2f"]) {
      expect((await service.anonymous.get(folder)).status).toBe(404);
    }
    const traced = await service.anonymous.trace("/sign-in").set("x-secret", "echoed");
    expect(traced.status).toBeGreaterThanOrEqual(400);
    expect(traced.text ?? "").not.toContain("echoed");
  });

  test("a parameter given twice is refused where one is meant", async () => {
    const office = service.as(service.firm.people.office);
    expect((await office.get("/api/v1/customers?limit=1")).status).toBe(200);
    expect((await office.get("/api/v1/customers?limit=1&limit=2")).status).toBe(422);
  });

  test("an address that a visitor forged is not believed, only the proxy's own", async () => {
    const forged = "198.51.100.7";
    const added = "203.0.113.9";
    const wrong = { email: "nobody@alder.example", password: "a wrong pass phrase" };
    const ask = ({ agent }: Pick<LoggedService, "agent">) =>
      agent.post("/api/v1/session").set("x-forwarded-for", `${forged}, ${added}`).send(wrong);
    expect((await ask(behindProxy)).status).toBe(401);
    const refused = behindProxy.entries().findLast(({ msg }) => msg === "refused");
    expect(refused?.ip).toBe(added);

    const alone = await startLogged(service);
    expect((await ask(alone)).status).toBe(401);
    const told = alone.entries().findLast(({ msg }) => msg === "refused");
    expect(told?.ip).not.toMatch(/^(?:198\.51\.100\.7|203\.0\.113\.9)$/);
    await alone.app.close();
  });
});
