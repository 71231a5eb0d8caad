// What a tablet is told to take along: the visits of its person's crews, by each site's calendar.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { startService, type TestService } from "../support/app.ts";
import { addVisit, type VisitFields } from "../support/booked-visits.ts";
import { type Rows, rowsIn, SMALL_PLAN } from "../support/work-rows.ts";

// A Friday at 09:00 in London, 20:00 in Sydney.
let now = new Date("2026-11-20T09:00:00Z");
let service: TestService;
let rows: Rows;
let crewId: string;
let planVersionId: string;

beforeAll(async () => {
  service = await startService({ now: () => now });
  rows = rowsIn(service);
  crewId = await rows.crew("North", [service.firm.people.installer.id]);
  planVersionId = (await rows.planVersion(SMALL_PLAN)).id;
});
afterAll(() => service.stop());

const day = (who: "installer" | "office" | "auditor" = "installer") =>
  service.as(service.firm.people[who]).get("/api/v1/tablet/day");
const idsOf = (reply: { body: { items: { visitId: string }[] } }): string[] =>
  reply.body.items.map(({ visitId }) => visitId);

async function jobAt(timeZone: string): Promise<string> {
  const site = await rows.site({ timeZone });
  return rows.job(site.id, planVersionId);
}

async function visit(fields: Partial<VisitFields> & { startsAt: string; endsAt: string }) {
  const jobId = fields.jobId ?? (await jobAt("Europe/London"));
  return addVisit(service, { crewId, ...fields, jobId });
}

describe("the tablet's day", () => {
  test.each([
    // London keeps UTC in November; its Friday and Saturday end on Sunday at 00:00Z.
    ["Europe/London", "2026-11-19T22:00:00Z", "2026-11-20T00:00:00Z", false],
    ["Europe/London", "2026-11-19T22:00:00Z", "2026-11-20T00:00:01Z", true],
    ["Europe/London", "2026-11-21T23:59:59Z", "2026-11-22T02:00:00Z", true],
    ["Europe/London", "2026-11-22T00:00:00Z", "2026-11-22T02:00:00Z", false],
    // Sydney is eleven hours ahead (IANA time zone database: AEDT), so its days end at 13:00Z.
    ["Australia/Sydney", "2026-11-19T11:00:00Z", "2026-11-19T13:00:00Z", false],
    ["Australia/Sydney", "2026-11-19T11:00:00Z", "2026-11-19T13:00:01Z", true],
    ["Australia/Sydney", "2026-11-21T12:59:59Z", "2026-11-21T14:00:00Z", true],
    ["Australia/Sydney", "2026-11-21T13:00:00Z", "2026-11-21T14:00:00Z", false],
  ])("in %s, a visit from %s to %s is on it: %s", async (timeZone, startsAt, endsAt, listed) => {
    const id = await visit({ jobId: await jobAt(timeZone), startsAt, endsAt });
    expect(idsOf(await day()).includes(id)).toBe(listed);
  });

  test("is of the person's own crews, earliest first, without the cancelled visits", async () => {
    const other = await rows.crew("South", [await rows.person("Wat Fell")]);
    const span = { startsAt: "2026-11-20T15:00:00Z", endsAt: "2026-11-20T16:00:00Z" };
    const foreign = await visit({ ...span, crewId: other });
    const cancelled = await visit({ ...span, state: "cancelled" });
    const late = await visit(span);
    const early = await visit({ startsAt: "2026-11-20T08:00:00Z", endsAt: "2026-11-20T10:00:00Z" });
    const reply = await day();
    expect(reply.body.serverTime).toBe("2026-11-20T09:00:00.000Z");
    expect(idsOf(reply).filter((id) => [foreign, cancelled, late, early].includes(id))).toEqual([
      early,
      late,
    ]);
    expect((await day("office")).body.items).toEqual([]);
  });

  test("says where, for whom and when, and which version of the packet fits", async () => {
    const jobId = await jobAt("Europe/London");
    const span = { startsAt: "2026-11-20T11:00:00Z", endsAt: "2026-11-20T12:00:00Z" };
    const id = await visit({ ...span, jobId });
    const { body } = await day();
    const shown = body.items.find((item: { visitId: string }) => item.visitId === id);
    const packet = await service
      .as(service.firm.people.installer)
      .get(`/api/v1/tablet/packets/${jobId}`);
    expect(shown).toEqual({
      visitId: id,
      jobId,
      reference: packet.body.job.reference,
      title: "Practice job",
      place: "4 Kiln Lane, Thornbeck",
      customerName: "Ida Rook",
      startsAt: "2026-11-20T11:00:00.000Z",
      endsAt: "2026-11-20T12:00:00.000Z",
      timeZone: "Europe/London",
      jobState: "open",
      packetVersion: packet.body.version,
    });
    expect(packet.headers.etag).toBe(`"${packet.body.version}"`);
  });

  test("two visits to one job on a day are two lines with one packet", async () => {
    const jobId = await jobAt("Europe/London");
    const first = { startsAt: "2026-11-21T08:00:00Z", endsAt: "2026-11-21T09:00:00Z" };
    const second = { startsAt: "2026-11-21T10:00:00Z", endsAt: "2026-11-21T11:00:00Z" };
    await visit({ ...first, jobId });
    await visit({ ...second, jobId });
    const lines: { jobId: string; packetVersion: string }[] = (await day()).body.items;
    const own = lines.filter((line) => line.jobId === jobId);
    expect(own).toHaveLength(2);
    expect(new Set(own.map(({ packetVersion }) => packetVersion)).size).toBe(1);
  });

  test("is not sent again while it is the same, whatever the clock says", async () => {
    const { headers } = await day();
    now = new Date("2026-11-20T09:00:07Z");
    const again = await day().set("if-none-match", headers.etag!);
    expect([again.status, again.text, again.headers.etag]).toEqual([304, "", headers.etag]);
    const jobId = await jobAt("Europe/London");
    await visit({ jobId, startsAt: "2026-11-20T17:00:00Z", endsAt: "2026-11-20T18:00:00Z" });
    expect((await day().set("if-none-match", headers.etag!)).status).toBe(200);
  });

  test("changes when a job's packet does", async () => {
    const jobId = await jobAt("Europe/London");
    await visit({ jobId, startsAt: "2026-11-20T18:00:00Z", endsAt: "2026-11-20T19:00:00Z" });
    const before = (await day()).headers.etag!;
    await inFirm(service.db, service.firm.firmId, (tx) =>
      tx.job.update({
        where: { firmId_id: { firmId: service.firm.firmId, id: jobId } },
        data: { title: "Practice job, east wall" },
      }),
    );
    expect((await day().set("if-none-match", before)).status).toBe(200);
  });

  test("holds nothing of another firm's, and is not for an auditor", async () => {
    const other = await service.addFirm("birch");
    const reply = await service.as(other.people.installer).get("/api/v1/tablet/day");
    expect([reply.status, reply.body.items]).toEqual([200, []]);
    expect((await day("auditor")).status).toBe(403);
    expect((await service.anonymous.get("/api/v1/tablet/day")).status).toBe(401);
  });
});
