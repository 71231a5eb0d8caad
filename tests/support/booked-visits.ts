// Visits as booked, made straight in the database, for tests of what is shown of them.
import { uuidv7 } from "uuidv7";
import { inFirm } from "../../src/db/scope.ts";
import type { TestFirm, TestService } from "./app.ts";

export interface VisitFields {
  jobId: string;
  crewId: string;
  startsAt: string;
  endsAt: string;
  instrumentIds?: string[];
  state?: string;
  note?: string;
}

export async function addVisit(
  service: TestService,
  { instrumentIds = [], startsAt, endsAt, ...fields }: VisitFields,
  { firmId }: TestFirm = service.firm,
): Promise<string> {
  const visitId = uuidv7();
  const span = { startsAt: new Date(startsAt), endsAt: new Date(endsAt) };
  await inFirm(service.db, firmId, async (tx) => {
    await tx.visit.create({ data: { firmId, id: visitId, ...fields, ...span } });
    for (const instrumentId of instrumentIds) {
      await tx.visitBooking.create({
        data: { firmId, id: uuidv7(), visitId, instrumentId, ...span },
      });
    }
  });
  return visitId;
}
