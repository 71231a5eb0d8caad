import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { sendFirmwareNotices } from "../../src/runs/firmware-notice.ts";
import { startService, type TestService } from "../support/app.ts";
import { addFleet, postTarget } from "../support/fleet.ts";
import { mailConfig } from "../support/smtp.ts";

const MORNING = new Date("2026-11-03T09:00:00Z");
let own: TestService;
beforeAll(async () => {
  own = await startService({ now: () => MORNING });
  const { modelId, siteIds } = await addFleet(own, "semver", ["1.0.0", "1.0.0"]);
  await postTarget(own, { modelId, level: "2.0.0", severity: "important" }, "2026-11-20");
  await bookInstaller(siteIds[0] ?? "");
});
afterAll(() => own.stop());

const inOwn = <T>(work: Parameters<typeof inFirm<T>>[2]) => inFirm(own.db, own.firm.firmId, work);

async function bookInstaller(siteId: string): Promise<void> {
  const { firmId, people } = own.firm;
  const span = {
    startsAt: new Date("2026-11-04T08:00:00Z"),
    endsAt: new Date("2026-11-04T15:30:00Z"),
  };
  await inOwn(async (tx) => {
    const jobs = await tx.job.findMany({ where: { firmId, siteId } });
    const crew = await tx.crew.create({ data: { firmId, id: uuidv7(), name: "One" } });
    const visit = await tx.visit.create({
      data: { firmId, id: uuidv7(), jobId: jobs[0]!.id, crewId: crew.id, ...span },
    });
    await tx.visitBooking.create({
      data: {
        ...{ firmId, id: uuidv7(), visitId: visit.id, personId: people.installer.id, ...span },
      },
    });
    await tx.person.updateMany({
      where: { firmId, id: people.installer.id },
      data: { language: "es" },
    });
  });
}

async function told() {
  const options = { now: MORNING, waitForHour: true, dryRun: true };
  const [outcome] = await sendFirmwareNotices(own.db, mailConfig({}), options);
  return new Map(outcome!.notices.map(({ recipient, text }) => [recipient, text]));
}

test("an installer is told of the sites of their visits, with their next free hours", async () => {
  const texts = await told();
  expect([...texts.keys()].sort()).toEqual(["installer@alder.example", "office@alder.example"]);
  const installer = texts.get("installer@alder.example") ?? "";
  expect(installer).toContain("1 equipo está por debajo del objetivo en 1 emplazamiento");
  // On the fourth nothing is left of two hours; the next days are whole.
  expect(installer).toContain("jue, 5 nov 08:00 a 17:00; vie, 6 nov 08:00 a 17:00");
});

test("who wants safety releases only hears of them, and of nothing else", async () => {
  await inOwn((tx) => tx.person.updateMany({ data: { firmwareNotices: "safety" } }));
  expect((await told()).size).toBe(0);
  const safety = await addFleet(own, "semver", ["1.0.0"]);
  await postTarget(own, { modelId: safety.modelId, level: "2.0.0", severity: "safety" });
  expect([...(await told()).keys()]).toEqual(["office@alder.example"]);
});
