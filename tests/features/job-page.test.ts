// The page of a job and its forms, as they come without any script.
import sharp from "sharp";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { startService, type TestService } from "../support/app.ts";
import { addPracticeJob, type PracticeJob } from "../support/practice-job.ts";

let service: TestService;
let job: PracticeJob;
beforeAll(async () => {
  service = await startService({ now: () => new Date("2026-11-25T17:00:00Z") });
  job = await addPracticeJob(service);
});
afterAll(() => service.stop());

const people = () => service.firm.people;
const office = () => service.as(people().office);
const manager = () => service.as(people().manager);
const installer = () => service.as(people().installer);
const page = async (path = "", client = office()) => client.get(`/jobs/${job.jobId}${path}`);
const post = async (path: string, fields: object, client = office()) =>
  client.post(`/jobs/${job.jobId}${path}`).type("form").send(fields);
const words = (html: string): string =>
  html
    .replaceAll(/<[^>]+>/g, " ")
    .replaceAll("&quot;", '"')
    .replaceAll(/\s+/g, " ");

describe("readings on the page", () => {
  const send = (answers: object[]) =>
    installer().post(`/api/v1/jobs/${job.jobId}/answers`).send({ answers });

  test("show value, instrument, person and time, and every attempt", async () => {
    const gap = job.answers().find(({ itemId }) => itemId === "wall_gap")!;
    const read = (number: number, takenAt: string) => ({
      ...gap,
      id: crypto.randomUUID(),
      takenAt,
      value: { number, unit: "mm" },
      note: `read ${number}`,
    });
    const first = read(8.5, "2026-11-25T09:10:00+00:00");
    const second = read(9.25, "2026-11-25T09:20:00+00:00");
    expect((await send([first])).status).toBe(201);
    expect((await send([second])).status).toBe(201);
    const text = words((await page()).text);
    expect(text).toContain("9.25 mm installer person, 25 Nov 2026, 09:20");
    expect(text).toContain("1 earlier attempt");
    expect(text).toContain("8.5 mm installer person, 25 Nov 2026, 09:10");
    const all = words((await page("/readings?itemId=wall_gap")).text);
    expect(all.indexOf("9.25 mm")).toBeLessThan(all.indexOf("8.5 mm"));
    expect(all).toContain("needed at least 9 mm");
    expect(words((await page("/readings?itemId=nothing")).text)).toContain("Nothing was answered");
  });

  test("are in the firm's units, with what was typed beside them", async () => {
    const set = (unitSystem: string) =>
      inFirm(service.db, service.firm.firmId, (tx) =>
        tx.firm.update({ where: { id: service.firm.firmId }, data: { unitSystem } }),
      );
    await set("us");
    // 9.25 mm / 25.4 = 0.36417… in (NIST SP 811: 1 in = 25.4 mm exactly).
    expect(words((await page()).text)).toContain("0.36417 in (9.25 mm)");
    await set("metric");
  });
});

describe("messages on the page", () => {
  test("are written by form, shown as new once, and keep what was typed if refused", async () => {
    const text = "Ring <b>before</b> you go.";
    expect((await post("/messages", { text })).headers.location).toBe(
      `/jobs/${job.jobId}#messages`,
    );
    const first = await page("", installer());
    expect(first.text).toContain("Ring &lt;b&gt;before&lt;/b&gt; you go.");
    expect(words(first.text)).toContain("1 new");
    expect(words((await page("", installer())).text)).not.toContain("1 new");
    const long = "x".repeat(2001);
    const refused = await post("/messages", { text: long });
    expect(refused.status).toBe(422);
    expect(refused.text).toContain(long);
    expect(refused.text).toContain('role="alert"');
  });

  test("that are unread are counted in the menu and listed, until their job is seen", async () => {
    const other = await addPracticeJob(service);
    const write = { text: "Key is under the pot." };
    await office().post(`/api/v1/jobs/${other.jobId}/messages`).send(write);
    const look = (path: string) => manager().get(path).set("accept", "text/html");
    const menu = /href="\/messages"[^>]*>Unread messages <span class="tag warn">(\d+)</;
    const before = Number(menu.exec((await look("/jobs")).text)?.[1]);
    expect(before).toBeGreaterThan(0);
    expect(words((await look("/messages")).text)).toContain("Key is under the pot. office person");
    await look(`/jobs/${other.jobId}`);
    const after = menu.exec((await look("/jobs")).text)?.[1];
    expect(Number(after ?? 0)).toBe(before - 1);
    expect((await look("/messages")).text).not.toContain("Key is under the pot.");
  });

  test("are not offered to an auditor, who cannot post them either", async () => {
    const auditor = service.as(people().auditor);
    expect((await page("", auditor)).text).not.toContain('action="/jobs/');
    expect((await post("/messages", { text: "x" }, auditor)).status).toBe(403);
  });
});

describe("concessions on the page", () => {
  test("are granted and taken back by a manager, and each is in the history in words", async () => {
    const [, other] = job.packIds;
    const answer = job
      .answers()
      .find(({ itemId, subject }) => itemId === "wall_gap" && subject === other)!;
    const value = { number: 7, unit: "mm" };
    await installer()
      .post(`/api/v1/jobs/${job.jobId}/answers`)
      .send({ answers: [{ ...answer, value }] });
    const fields = { itemId: "wall_gap", subject: other, reason: "Niche, air from above" };
    expect((await post("/concessions", fields)).status).toBe(403);
    const past = await post("/concessions", { ...fields, expiresOn: "2026-11-01" }, manager());
    expect([past.status, words(past.text)]).toMatchObject([422, /is over already/]);
    const granted = { ...fields, expiresOn: "2027-01-31" };
    expect((await post("/concessions", granted, manager())).status).toBe(303);
    const shown = await page("", manager());
    expect(words(shown.text)).toContain("until 31 Jan 2027");
    const revocation = /action="\/jobs\/[^/]+(\/concessions\/[^"]+\/revocation)"/;
    const [, path = ""] = revocation.exec(shown.text) ?? [];
    expect((await post(path, {}, manager())).status).toBe(303);
    expect(words((await page("", manager())).text)).toContain("taken back by manager person");
    const history = words((await page("/history")).text);
    expect(history).toContain('manager person released "');
    expect(history).toContain("manager person took a concession back.");
    expect(history).toContain("Niche, air from above");
  });
});

describe("photos", () => {
  const colour = (background: string) =>
    sharp({ create: { width: 1200, height: 900, channels: 3, background } })
      .png()
      .toBuffer();
  const hashOf = async (bytes: Buffer) =>
    Buffer.from(await crypto.subtle.digest("SHA-256", new Uint8Array(bytes))).toString("hex");
  const send = async (background: string) => {
    const bytes = await colour(background);
    const sha256 = await hashOf(bytes);
    await installer()
      .put(`/api/v1/jobs/${job.jobId}/photos/${sha256}?itemId=wall_gap`)
      .set("content-type", "image/png")
      .send(bytes);
    return sha256;
  };

  test("are thumbnails with captions, each a link to a page with its neighbours", async () => {
    const [one, two, three] = [await send("#a00"), await send("#0a0"), await send("#00a")];
    const html = (await page()).text;
    expect(html).toContain(`photos/${one}?size=small`);
    const middle = await page(`/photos/${two}`);
    expect(words(middle.text)).toContain("installer person · ");
    expect(middle.text).toContain(`href="/jobs/${job.jobId}/photos/${three}" rel="prev"`);
    expect(middle.text).toContain(`href="/jobs/${job.jobId}/photos/${one}" rel="next"`);
    expect((await page(`/photos/${"0".repeat(64)}`)).status).toBe(404);
  });

  test("are small where a small one is asked for", async () => {
    const sha256 = await send("#aa0");
    const read = async (query: string) => {
      const reply = await office()
        .get(`/api/v1/jobs/${job.jobId}/photos/${sha256}${query}`)
        .buffer(true);
      return sharp(Buffer.from(reply.body)).metadata();
    };
    expect(await read("?size=small")).toMatchObject({ width: 320, height: 240, format: "jpeg" });
    expect(await read("")).toMatchObject({ width: 1200, height: 900 });
  });
});

test("a closed job shows what it was closed on, and is reopened by a manager alone", async () => {
  const closed = await addPracticeJob(service);
  await installer()
    .post(`/api/v1/jobs/${closed.jobId}/answers`)
    .send({ answers: closed.answers() });
  const at = `/jobs/${closed.jobId}`;
  expect((await installer().post(`${at}/close-out`)).status).toBe(303);
  const shown = await manager().get(at);
  expect(words(shown.text)).toContain("Closed 25 Nov 2026, 17:00. Head of the ledger:");
  const refused = await manager().post(`${at}/reopening`).type("form").send({ reason: "" });
  expect(refused.status).toBe(422);
  const reason = "Wrong pack";
  expect((await office().post(`${at}/reopening`).type("form").send({ reason })).status).toBe(403);
  expect((await manager().post(`${at}/reopening`).type("form").send({ reason })).status).toBe(303);
  expect((await manager().get(at)).text).toContain("Close the job out");
});

test("another firm's job is not there, on any of its pages", async () => {
  const birch = await service.addFirm("birch");
  const theirs = service.as(birch.people.manager);
  for (const path of ["", "/readings", "/history", "/photos", "/kit", "/visits/new"]) {
    expect((await page(path, theirs)).status, path).toBe(404);
  }
});
