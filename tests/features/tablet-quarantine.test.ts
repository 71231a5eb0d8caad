import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { QUARANTINED_MOST } from "../../src/features/tablet/ops-store.ts";
import { startService, type TestService } from "../support/app.ts";
import { addPracticeJob } from "../support/practice-job.ts";
import { outcomes, sendOps, testTablet } from "../support/tablet-ops.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService({ now: () => new Date("2026-11-25T17:00:00Z") });
});
afterAll(() => service.stop());

test("what is refused is kept no more once a tablet's quarantine is full", async () => {
  const job = await addPracticeJob(service);
  const tablet = testTablet(job.jobId, service.firm.people.installer.id);
  const [answer] = job.answers().filter(({ itemId }) => itemId === "serial");
  const first = tablet.answer(answer!);
  await sendOps(service, [first]);
  const { firmId, people } = service.firm;
  await inFirm(service.db, firmId, (tx) =>
    tx.tabletQuarantine.createMany({
      data: Array.from({ length: QUARANTINED_MOST }, (_, index) => ({
        ...{ firmId, id: uuidv7(), opId: uuidv7(), deviceId: first!.deviceId, deviceSeq: 1 },
        ...{ sentById: people.installer.id, body: "{}", bytes: 2, why: "full" },
        ...{ sha256: `${first!.deviceId}-${index}`, receivedAt: new Date() },
      })),
    }),
  );
  const reply = await sendOps(service, [{ ...first, monotonicMs: 8 }]);
  expect(outcomes(reply)).toEqual(["refused"]);
  const kept = await inFirm(service.db, firmId, (tx) =>
    tx.tabletQuarantine.count({ where: { firmId, deviceId: first!.deviceId } }),
  );
  expect(kept).toBe(QUARANTINED_MOST);
});
