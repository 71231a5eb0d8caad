import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { startService, type TestService } from "../support/app.ts";
import { registryDesk } from "../support/registry-desk.ts";
import { rowsIn, SMALL_PLAN } from "../support/work-rows.ts";

const NOW = new Date("2026-11-25T12:00:00Z");
let service: TestService;
let desk: Awaited<ReturnType<typeof registryDesk>>;
beforeAll(async () => {
  service = await startService({ now: () => NOW });
  desk = await registryDesk(service);
});
afterAll(() => service.stop());

describe("the search page", () => {
  test("leads straight to the one thing whose serial number was typed", async () => {
    const reply = await desk.page(`/search?q=${desk.unit.serial.toLowerCase()}`);
    expect([reply.status, reply.headers.location]).toEqual([303, `/units/${desk.unit.id}`]);
  });

  test("lists what was found, says so when nothing was, and escapes what was typed", async () => {
    expect((await desk.page("/search?q=lanternmakr")).text).toContain(
      `href="/sites/${desk.site.id}"`,
    );
    const none = await desk.page(`/search?q=${encodeURIComponent("<b>qqzz")}`);
    expect(none.text).toContain("Nothing was found for “&lt;b&gt;qqzz”.");
    expect((await desk.page("/search")).text).toContain("Type what you know");
  });
});

describe("the first page", () => {
  test("shows an installer their own visits of the day, and the office everybody's", async () => {
    const rows = rowsIn(service);
    const { id } = service.firm.people.installer;
    const own = await rows.crew("North", [id]);
    const other = await rows.crew("South", [await rows.person("Wren Olsen")]);
    const { id: planVersionId } = await rowsIn(service).planVersion(SMALL_PLAN);
    const book = async (crewId: string, startsAt: string, endsAt: string) => {
      const job = await rows.job(desk.site.id, planVersionId);
      const reply = await desk
        .as()
        .post(`/api/v1/jobs/${job}/visits`)
        .send({ crewId, startsAt, endsAt });
      expect(reply.status, JSON.stringify(reply.body)).toBe(201);
      return job;
    };
    const mine = await book(own, "2026-11-25T08:00:00Z", "2026-11-25T10:00:00Z");
    const theirs = await book(other, "2026-11-25T11:00:00Z", "2026-11-25T13:00:00Z");
    const tomorrow = await book(own, "2026-11-26T08:00:00Z", "2026-11-26T10:00:00Z");
    const [installer, office] = [await desk.page("/", "installer"), await desk.page("/", "office")];
    expect(installer.text).toContain("08:00–10:00");
    expect(installer.text).toContain(`/jobs/${mine}`);
    expect(installer.text).not.toContain(`/jobs/${theirs}`);
    expect(office.text).toContain(`/jobs/${theirs}`);
    expect(office.text).not.toContain(`/jobs/${tomorrow}`);
    expect(office.text).toContain("1 thing in the way");
  });

  test("tells each role only what is theirs, and what to do where nothing waits", async () => {
    const auditor = await desk.page("/", "auditor");
    expect(auditor.text).toContain("Nothing needs you now.");
    expect(auditor.text).not.toContain("Begun and not closed yet");
    const quiet = await service.addFirm("cedar");
    const office = await service.as(quiet.people.office).get("/").set("accept", "text/html");
    expect(office.text).toContain("Open the next job, or book visits");
  });

  test("names instruments that run out and those that are out already", async () => {
    const reply = await desk.page("/", "manager");
    expect(reply.text).not.toContain("IT-07");
    const instrument = await desk
      .as()
      .post("/api/v1/instruments")
      .send({
        ...{ reference: "IT-09", name: "Loop tester", instrumentClass: "loop-tester", serial: "1" },
      });
    await desk
      .as()
      .post(`/api/v1/instruments/${instrument.body.id}/calibrations`)
      .send({ calibratedOn: "2025-12-20", dueOn: "2026-12-20", passed: true, certificate: "C" });
    expect((await desk.page("/", "manager")).text).toMatch(
      /IT-09 Loop tester<\/a> <span class="tag warn">▲ due 20 Dec 2026/,
    );
  });

  test("names qualifications that run out, renewed ones by their later day", async () => {
    const { firmId, people } = service.firm;
    const kindId = uuidv7();
    const hold = (personId: string, validFrom: string, validTo: string | null) => ({
      ...{ firmId, id: uuidv7(), personId, kindId, validFrom: new Date(validFrom) },
      validTo: validTo === null ? null : new Date(validTo),
    });
    await inFirm(service.db, firmId, async (tx) => {
      await tx.qualificationKind.create({ data: { firmId, id: kindId, name: "Work at height" } });
      await tx.qualification.createMany({
        data: [
          hold(people.installer.id, "2025-01-01", "2026-12-20"),
          hold(people.manager.id, "2025-01-01", "2026-12-01"),
          hold(people.manager.id, "2026-01-01", "2027-12-01"),
          hold(people.office.id, "2025-01-01", null),
        ],
      });
    });
    const office = await desk.page("/", "office");
    expect(office.text).toContain("installer person: Work at height");
    expect(office.text).not.toContain("manager person: Work at height");
    expect(office.text).not.toContain("office person: Work at height");
    expect((await desk.page("/", "installer")).text).toContain("ends 20 Dec 2026");
  });
});
