// A customer's name where people write about the work, and not about the customer.
import { inFirm } from "../../src/db/scope.ts";
import type { TestService } from "./app.ts";
import type { PracticeJob } from "./practice-job.ts";

export async function nameInWork(service: TestService, job: PracticeJob, words: string) {
  const { firmId, people } = service.firm;
  const { jobId, siteId } = job;
  const unitId = job.packIds[0] ?? "";
  const own = { firmId, id: crypto.randomUUID(), personId: people.office.id };
  await inFirm(service.db, firmId, async (tx) => {
    await tx.job.update({ where: { firmId_id: { firmId, id: jobId } }, data: { title: words } });
    await tx.unit.update({ where: { firmId_id: { firmId, id: unitId } }, data: { note: words } });
    const event = { ...own, unitId, kind: "installed", siteId, at: new Date(), note: words };
    await tx.unitEvent.create({ data: event });
  });
}
