// Hostile forms, names, tables and delivery reports through the routes that take them.
import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { settled } from "../support/imports.ts";
import { addJobRows } from "../support/rows.ts";
import { HOSTILE_NAMES, hostileForms } from "./hostile-uploads/forms.ts";
import { PDF } from "./hostile-uploads/hostile-file.ts";
import { faultOfRefusal, form, hashOf, send, sendInside } from "./hostile-uploads/send.ts";
import { hostileMails, hostileTables } from "./hostile-uploads/tables.ts";

const folder = mkdtempSync(join(tmpdir(), "holdpoint-hostile-"));
const GROWTH_BYTES_MOST = 400 * 1024 * 1024;
let service: TestService;
let documents: string;

beforeAll(async () => {
  service = await startService({ environment: { DATA_DIR: folder } });
  await service.app.listen({ host: "127.0.0.1", port: 0 });
  const { jobId } = await addJobRows(service, { schema: "plan/1", stages: [] });
  documents = `/api/v1/jobs/${jobId}/documents`;
});
afterAll(async () => {
  await service.stop();
  rmSync(folder, { recursive: true, force: true });
});

const formPages = () => [documents.replace("/api/v1", ""), "/firm/mark", "/imports"];

describe("hostile forms", () => {
  test.each(hostileForms())("of $what are refused by every page that takes a file", async (one) => {
    const { type, bytes } = one;
    const before = process.resourceUsage().maxRSS;
    for (const url of formPages()) {
      const headers = { "content-type": type };
      const answer = await send(service, { method: "POST", url, headers, bytes });
      expect(faultOfRefusal(answer), url).toBeUndefined();
    }
    const grownBytes = (process.resourceUsage().maxRSS - before) * 1024;
    expect(grownBytes).toBeLessThan(GROWTH_BYTES_MOST);
  });

  test.each([
    ["less", String(PDF.length - 1), [400]],
    ["more", String(PDF.length + 5), [400]],
    ["far too much", "99999999999", [413]],
  ])("that say %s of their length are refused", async (_what, length, statuses) => {
    const headers = { "content-type": "application/pdf", "content-length": length };
    const url = `${documents}/${hashOf(PDF)}?name=a`;
    const answer = await sendInside(service, { method: "PUT", url, headers, bytes: PDF });
    expect(faultOfRefusal(answer)).toBeUndefined();
    expect(statuses).toContain(answer.status);
  });

  test("bring no kind of import that there is not", async () => {
    const answer = await send(service, form("/imports", { type: "text/csv", bytes: PDF }));
    expect([answer.status, faultOfRefusal(answer)]).toEqual([422, undefined]);
  });
});

describe("hostile names", () => {
  test.each(HOSTILE_NAMES)(
    "%j are refused by field, or leave as a name that harms nobody",
    async (name) => {
      const bytes = Buffer.concat([PDF, Buffer.from(`%${encodeURIComponent(name)}\n%%EOF\n`)]);
      const url = `${documents}/${hashOf(bytes)}`;
      const named = `${url}?name=${encodeURIComponent(name)}`;
      const headers = { "content-type": "application/pdf" };
      const answer = await send(service, { method: "PUT", url: named, headers, bytes });
      if (answer.status >= 400) {
        expect(faultOfRefusal(answer)).toBeUndefined();
        expect(JSON.parse(answer.bytes.toString()).errors[0].pointer).toBe("/query/name");
        return;
      }
      expect(JSON.parse(answer.bytes.toString()).name).toBe(name.trim());
      const saved = await send(service, { url });
      const said = String(saved.headers["content-disposition"]);
      const [, plain = "", encoded = ""] =
        /^attachment; filename="([^"\\/]+)"; filename\*=UTF-8''([\w.~%!#$&+^`|-]+)$/.exec(said) ??
        [];
      for (const text of [plain, decodeURIComponent(encoded)]) {
        expect(text).toMatch(/[^. ]\.pdf$/);
        expect(text).not.toMatch(
          /[/\\:\p{Cc}\u202a-\u202e\u2066-\u2069]|^\.|^(con|nul|aux|prn|com\d|lpt\d)\./iu,
        );
      }
    },
  );

  test.each(HOSTILE_NAMES)("%j of a form's file break nothing", async (name) => {
    const quoted = name.replaceAll('"', "%22").replaceAll("\r", "%0D").replaceAll("\n", "%0A");
    const [page = ""] = formPages();
    const told = { type: "application/pdf", bytes: PDF, name: quoted };
    const answer = await send(service, form(page, told));
    if (answer.status === 303) return expect(answer.headers.location).toMatch(/#documents$/);
    return expect(faultOfRefusal(answer)).toBeUndefined();
  });

  test("leave nothing beside the places that files have", () => {
    expect(readdirSync(folder).sort()).toEqual(["photos"]);
    const [firm = ""] = readdirSync(join(folder, "photos"));
    const names = readdirSync(join(folder, "photos", firm), { recursive: true }) as string[];
    expect(names.filter((name) => !/^[0-9a-f]{2}(\/[0-9a-f]{64})?$/.test(name))).toEqual([]);
  });
});

describe("hostile tables", () => {
  test.each(hostileTables())(
    "of $what are refused, or tried without a failure",
    async ({ bytes }) => {
      const office = service.as(service.firm.people.office);
      const before = process.resourceUsage().maxRSS;
      const begun = await office.post("/api/v1/imports").send({ kind: "customers", fileName: "a" });
      const url = `/api/v1/imports/${begun.body.id}`;
      const headers = { "content-type": "text/csv" };
      const answer = await send(service, { method: "PUT", url: `${url}/file`, headers, bytes });
      if (answer.status !== 200) expect(faultOfRefusal(answer)).toBeUndefined();
      else {
        const columns = ["reference", "name", "email"];
        const { headers: names } = JSON.parse(answer.bytes.toString());
        const wish = { columns: names.map((_: string, at: number) => columns[at] ?? null) };
        const tried = await office.post(`${url}/dry-run`).send(wish);
        if (tried.status === 202) {
          const { state, problem } = await settled(office, begun.body.id);
          expect([state, problem === null]).toEqual([
            expect.stringMatching(/^(checked|failed)$/),
            state === "checked",
          ]);
          expect(problem ?? "").not.toMatch(/on our side|node_modules|\n {4}at /);
        } else expect([tried.status, tried.body.type]).toEqual([422, "/problems/invalid-input"]);
      }
      const page = await office.get(`/imports/${begun.body.id}`).set("accept", "text/html");
      expect(page.status).toBe(200);
      const grownBytes = (process.resourceUsage().maxRSS - before) * 1024;
      expect(grownBytes).toBeLessThan(GROWTH_BYTES_MOST);
    },
  );
});

describe("hostile delivery reports", () => {
  test.each(hostileMails())("of $what are refused with a problem", async ({ bytes }) => {
    const headers = { "content-type": "message/rfc822" };
    const url = "/api/v1/mail/bounces";
    const answer = await send(service, { method: "POST", url, headers, bytes, by: "office" });
    expect(faultOfRefusal(answer)).toBeUndefined();
  });
});
