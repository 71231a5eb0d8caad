import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { heldOnClosedJob } from "../support/tablet-ops.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService({ now: () => new Date("2026-11-25T17:00:00Z") });
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);

describe("the page of held operations", () => {
  const page = (path: string) => office().get(path).set("accept", "text/html");

  test("shows each with its sentence and two ways out, the frame how many", async () => {
    const { job, op } = await heldOnClosedJob(service);
    const held = await page(`/held?jobId=${job.jobId}`);
    expect(held.status).toBe(200);
    expect(held.text).toContain("takes no more answers");
    expect(held.text).toContain(`action="/held/${op.opId}/application"`);
    expect(held.text).toContain(`href="/jobs/${job.jobId}"`);
    const today = await page("/today");
    expect(today.text).toMatch(/href="\/held">Held <span class="tag warn">\d+</);
    const jobPage = await page(`/jobs/${job.jobId}`);
    expect(jobPage.text).toContain("1 thing kept on a tablet for this job has no effect yet");
    const installer = service.as(service.firm.people.installer);
    const theirs = await installer.get("/today").set("accept", "text/html");
    expect(theirs.text).not.toContain('href="/held"');
  });

  test("dismisses and applies by its forms", async () => {
    const first = await heldOnClosedJob(service);
    const second = await heldOnClosedJob(service);
    await service
      .as(service.firm.people.manager)
      .post(`/api/v1/jobs/${second.job.jobId}/reopening`)
      .send({ reason: "A reading came late." });
    const dismissed = await office()
      .post(`/held/${first.op.opId}/dismissal`)
      .type("form")
      .send({ reason: "Seen." });
    const applied = await office().post(`/held/${second.op.opId}/application`).type("form");
    expect([dismissed.status, applied.status]).toEqual([303, 303]);
    for (const { job } of [first, second]) {
      const left = await office().get(`/api/v1/held-operations?jobId=${job.jobId}&decided=false`);
      expect(left.body.items).toEqual([]);
    }
  });
});
