import type { ParsedMail } from "mailparser";
import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { connect } from "../../src/db/client.ts";
import { inFirm } from "../../src/db/scope.ts";
import { sendFirmwareNotices } from "../../src/runs/firmware-notice.ts";
import { startService, type TestService } from "../support/app.ts";
import { addFleet, postTarget } from "../support/fleet.ts";
import { type MailServer, mailConfig, sendAt, startMailServer } from "../support/smtp.ts";

let service: TestService;
let server: MailServer;
beforeAll(async () => {
  service = await startService({ now: () => morning(1) });
  server = await startMailServer();
});
afterAll(async () => {
  await server.stop();
  await service.stop();
});
beforeEach(() => {
  server.received.length = 0;
});

const morning = (day: number) => new Date(Date.UTC(2026, 10, day, 9));
const give = (now: Date, more: object = {}) =>
  sendFirmwareNotices(service.db, mailConfig({}), { now, waitForHour: true, ...more });
const send = (now: Date) => sendAt(service.db, { SMTP_URL: server.url }, now);
const inOwnFirm = <T>(work: Parameters<typeof inFirm<T>>[2]) =>
  inFirm(service.db, service.firm.firmId, work);
const receivedBy = (address: string): ParsedMail => {
  const found = server.received.find(({ to }) => to && "text" in to && to.text === address);
  if (!found) throw new Error(`no mail to ${address}`);
  return found;
};
const bothParts = (mail: ParsedMail) => [mail.text ?? "", mail.html || ""];

describe("the firmware notice", () => {
  test("is not given while nothing is due, but the day is recorded", async () => {
    const outcomes = await give(morning(1));
    expect(outcomes).toEqual([{ firm: "alder", day: "2026-11-01", sites: 0, notices: [] }]);
    expect(await give(morning(1))).toEqual([]);
    const manager = service.as(service.firm.people.manager);
    const records = await manager.get("/api/v1/firmware/due-list-records?day=2026-11-01");
    expect(records.body.items).toMatchObject([{ siteCount: 0, unitCount: 0 }]);
  });

  test("reaches each office person once, with the list in both parts", async () => {
    const { modelId, unitIds } = await addFleet(service, "semver", ["1.0.0", null, "1.1.0"]);
    await postTarget(service, { modelId, level: "2.0.0", severity: "safety" }, "2026-11-02");
    await give(morning(3));
    expect(await send(morning(3))).toMatchObject({ sent: 2, failed: 0 });
    const mail = receivedBy("office@alder.example");
    expect(mail.subject).toBe("Firmware due at 2 sites, 2 units overdue");
    const units = await inOwnFirm((tx) => tx.unit.findMany({ where: { id: { in: unitIds } } }));
    const serialAt = (level: string | null) =>
      units.find(({ firmwareLevel }) => firmwareLevel === level)!.serial;
    for (const part of bothParts(mail)) {
      expect(part).toContain("2 units are below target at 2 sites; 2 past the day.");
      expect(part).toContain("1 unit has a level that is unknown or cannot be ordered");
      expect(part).toContain("4 Kiln Lane, Thornbeck");
      expect(part).toContain(serialAt("1.0.0"));
      expect(part).toContain("2026-11-02, 1 day over");
      expect(part).not.toContain(serialAt(null));
      expect(part).toContain("https://holdpoint.example/firmware");
      expect(part).toMatch(/follow the maker('|&#x27;)s instructions/);
    }
    expect(mail.headers.get("auto-submitted")).toBe("auto-generated");
    expect(await send(morning(3))).toMatchObject({ sent: 0 });
  });

  test("escapes in HTML what people have typed, and nothing in plain text", async () => {
    await inOwnFirm((tx) =>
      tx.firm.updateMany({ data: { name: "Ash & <b>Sons</b>", version: { increment: 1 } } }),
    );
    await give(morning(4));
    await send(morning(4));
    const [text, html] = bothParts(receivedBy("office@alder.example"));
    expect(text).toContain("Ash & <b>Sons</b>, 2026-11-04");
    expect(html).toContain("Ash &amp; &lt;b&gt;Sons&lt;/b&gt;, 2026-11-04");
  });

  test("waits for the hour, unless a person asks", async () => {
    const early = new Date("2026-11-05T06:59:59Z");
    expect(await give(early)).toEqual([]);
    expect(await give(early, { waitForHour: false })).toHaveLength(1);
    expect(await give(morning(5))).toEqual([]);
  });

  test("prints and stores nothing on a dry run", async () => {
    const [outcome] = await give(morning(6), { dryRun: true });
    expect(outcome!.notices[0]!.text).toContain("1.0.0 to 2.0.0 (safety), due 2026-11-02");
    const day = { day: new Date("2026-11-06") };
    expect(await inOwnFirm((tx) => tx.dueListRecord.count({ where: day }))).toBe(0);
    expect(await inOwnFirm((tx) => tx.notice.count({ where: day }))).toBe(0);
    expect(await give(morning(6))).toHaveLength(1);
  });

  test("goes to active people whom it concerns, and is on record with its mail", async () => {
    const { firmId, people } = service.firm;
    const office = { firmId, roles: ["office", "manager"], name: "Second Office" };
    await inOwnFirm((tx) =>
      tx.person.createMany({
        data: [
          { ...office, id: firmId, email: "second@alder.example" },
          {
            ...office,
            id: uuidv7(),
            email: "gone@alder.example",
            active: false,
          },
        ],
      }),
    );
    const [outcome] = await give(morning(7));
    expect(outcome!.notices.map(({ recipient }) => recipient).sort()).toEqual([
      "manager@alder.example",
      "office@alder.example",
      "second@alder.example",
    ]);
    const reply = await service.as(people.office).get("/api/v1/notices?day=2026-11-07");
    expect(reply.body.items).toHaveLength(3);
    for (const notice of reply.body.items) {
      expect(notice).toMatchObject({ kind: "firmware-due", mailState: "waiting" });
    }
  });

  test("is given exactly once a person though eight runs of three instances meet", async () => {
    const instances = [1, 2, 3].map(() => connect({ url: service.appUrl, poolSize: 6 }));
    const options = { now: morning(8), waitForHour: true };
    const runs = Array.from({ length: 8 }, (_value, index) =>
      sendFirmwareNotices(instances[index % 3]!, mailConfig({}), options),
    );
    const outcomes = (await Promise.all(runs)).flat();
    await Promise.all(instances.map((db) => db.close()));
    expect(outcomes).toHaveLength(1);
    const day = { day: new Date("2026-11-08") };
    expect(await inOwnFirm((tx) => tx.dueListRecord.count({ where: day }))).toBe(1);
    expect(await inOwnFirm((tx) => tx.notice.count({ where: day }))).toBe(3);
  });

  test("leaves nothing when it fails half-way, and is given whole the next time", async () => {
    const mailCount = () => inOwnFirm((tx) => tx.mail.count());
    const before = await mailCount();
    // The second person's notice cannot be stored twice on one day.
    const { firmId } = service.firm;
    const taken = { firmId, id: firmId, kind: "firmware-due", personId: firmId, contentSha256: "" };
    const day = new Date("2026-11-09");
    await inOwnFirm((tx) => tx.notice.create({ data: { ...taken, day } }));
    const failures: string[] = [];
    const outcomes = await give(morning(9), {
      onFailure: ({ name }: { name: string }) => failures.push(name),
    });
    expect([outcomes, failures]).toEqual([[], ["Ash & <b>Sons</b>"]]);
    expect(await mailCount()).toBe(before);
    expect(await inOwnFirm((tx) => tx.dueListRecord.count({ where: { day } }))).toBe(0);
    expect(await give(morning(10))).toHaveLength(1);
    expect(await mailCount()).toBe(before + 3);
  });

  test("of one firm does not wait for another whose run fails", async () => {
    const other = await service.addFirm("birch");
    await inFirm(service.db, other.firmId, (tx) =>
      tx.firm.update({ where: { id: other.firmId }, data: { timeZone: "Nowhere/Atall" } }),
    );
    await service.addFirm("cedar");
    const failed: string[] = [];
    const onFailure = ({ name }: { name: string }) => failed.push(name);
    const outcomes = await give(morning(11), { onFailure });
    expect(failed).toEqual(["birch"]);
    expect(outcomes.map(({ firm }) => firm)).toEqual(["Ash & <b>Sons</b>", "cedar"]);
    await expect(give(morning(12))).rejects.toThrow();
  });
});

test("the record of a day holds the whole list as it stood", async () => {
  const manager = service.as(service.firm.people.manager);
  const [row] = (await manager.get("/api/v1/firmware/due-list-records?day=2026-11-03")).body.items;
  const record = await manager.get(`/api/v1/firmware/due-list-records/${row.id}`);
  expect(record.body).toMatchObject({ day: "2026-11-03", siteCount: 2, unitCount: 2 });
  const levels = record.body.entries.map(
    (site: { units: { from: string }[]; unclear: object[] }) => [
      site.units.map(({ from }) => from),
      site.unclear.length,
    ],
  );
  expect(levels).toEqual([
    [["1.0.0"], 0],
    [[], 1],
    [["1.1.0"], 0],
  ]);
  const theirs = service.as((await service.addFirm("dogwood")).people.manager);
  expect((await theirs.get(`/api/v1/firmware/due-list-records/${row.id}`)).status).toBe(404);
});
