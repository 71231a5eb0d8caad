// Two crews with an installer each and a job to place, in a browser.
import type { Browser, BrowserContextOptions } from "playwright-core";
import { expect } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { startService, type TestService } from "./app.ts";
import { launchBrowser } from "./browser.ts";
import { signedInPage } from "./browser-pages.ts";
import { addJobRows } from "./rows.ts";

const NOW = new Date("2026-11-25T09:00:00Z");
const ITEM = { id: "a", kind: "confirm", title: "A", do: "Look at it.", holdPoint: true };
const PLAN = {
  ...{ schema: "plan/1", title: "Look-over", decisionRule: "simple" },
  stages: [{ id: "s", title: "S", items: [ITEM] }],
};
type CrewName = "Dale" | "Fell";

export class DiaryStage {
  readonly service: TestService;
  readonly browser: Browser;
  readonly baseUrl: string;
  readonly crews: Record<CrewName, string>;
  /** The job to place, a new one for each test. */
  jobId = "";

  private constructor(
    service: TestService,
    browser: Browser,
    baseUrl: string,
    crews: Record<CrewName, string>,
  ) {
    this.service = service;
    this.browser = browser;
    this.baseUrl = baseUrl;
    this.crews = crews;
  }

  static async open(): Promise<DiaryStage> {
    const service = await startService({ now: () => NOW });
    const office = service.as(service.firm.people.office);
    const addCrew = async (name: string, personId: string) =>
      (await office.post("/api/v1/crews").send({ name, personIds: [personId] })).body.id;
    const second = await inFirm(service.db, service.firm.firmId, (tx) =>
      tx.person.create({
        data: {
          ...{ firmId: tx.firmId, id: crypto.randomUUID(), email: "second@alder.example" },
          ...{ name: "Second installer", roles: ["installer"], passwordHash: "-" },
        },
      }),
    );
    const crews = {
      Dale: await addCrew("Dale", service.firm.people.installer.id),
      Fell: await addCrew("Fell", second.id),
    };
    const address = await service.app.listen({ port: 0, host: "127.0.0.1" });
    const baseUrl = address.replace("127.0.0.1", "localhost");
    return new DiaryStage(service, await launchBrowser(), baseUrl, crews);
  }

  async close(): Promise<void> {
    await this.browser.close();
    await this.service.stop();
  }

  /** Nothing is booked, and one job waits. */
  async clear(): Promise<void> {
    await inFirm(this.service.db, this.service.firm.firmId, async (tx) => {
      await tx.visitBooking.deleteMany({ where: { firmId: tx.firmId } });
      await tx.visit.updateMany({ where: { firmId: tx.firmId }, data: { state: "cancelled" } });
      await tx.job.updateMany({ where: { firmId: tx.firmId }, data: { state: "cancelled" } });
    });
    this.jobId = await this.addJob();
  }

  async addJob(): Promise<string> {
    return (await addJobRows(this.service, PLAN)).jobId;
  }

  /** Books on 1 December; the visit's id. */
  async book(
    from: string,
    to: string,
    crew: CrewName = "Dale",
    jobId = this.jobId,
  ): Promise<string> {
    const local = { day: "2026-12-01", from, to };
    const reply = await this.service
      .as(this.service.firm.people.office)
      .post(`/api/v1/jobs/${jobId}/visits`)
      .send({ crewId: this.crews[crew], local });
    expect(reply.status, JSON.stringify(reply.body)).toBe(201);
    return reply.body.id;
  }

  async booked(): Promise<string[]> {
    return inFirm(this.service.db, this.service.firm.firmId, async (tx) => {
      const where = { firmId: tx.firmId, state: "booked" };
      const rows = await tx.visit.findMany({ where, include: { crew: true } });
      return rows.map(({ crew, startsAt, endsAt }) => {
        const [from, to] = [startsAt, endsAt].map((at) => at.toISOString().slice(5, 16));
        return `${crew.name} ${from} to ${to}`;
      });
    });
  }

  page(more = "", options: BrowserContextOptions & { role?: string } = {}) {
    return signedInPage(this.browser, this.baseUrl, `/diary?day=2026-12-01${more}`, options);
  }
}
