// What is missing for the visits of a day.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import type { TestFirm } from "../support/app.ts";
import { type KitWork, startKitWork } from "../support/kit-work.ts";

let work: KitWork;
let other: TestFirm;
beforeAll(async () => {
  work = await startKitWork();
  other = await work.service.addFirm("birch");
});
afterAll(() => work.service.stop());

const office = () => work.service.as(work.service.firm.people.office);
const installer = () => work.service.as(work.service.firm.people.installer);
const openJob: KitWork["openJob"] = (units, kind) => work.openJob(units, kind);
const newUnit = () => work.rows.unit(work.modelId);

describe("what is missing on a day", () => {
  const TOMORROW = "2026-11-21";
  const book = async (jobId: string, day: string, from: string, instrumentIds: string[] = []) => {
    const to = `${String(Number(from.slice(0, 2)) + 1).padStart(2, "0")}:00`;
    const local = { day, from, to };
    const reply = await office()
      .post(`/api/v1/jobs/${jobId}/visits`)
      .send({ crewId: work.crewId, local, instrumentIds });
    expect(reply.status).toBe(201);
  };
  const missing = async (day?: string) =>
    (await office().get(`/api/v1/stock/missing${day ? `?day=${day}` : ""}`)).body;
  const stock = async (code: string, name: string, amount: number) => {
    const made = await office()
      .post("/api/v1/consumables")
      .send({ code, name, countedIn: "piece" });
    const move = { kind: "received", amount, place: "Depot" };
    await office().post(`/api/v1/consumables/${made.body.id}/movements`).send(move);
    return made.body.id as string;
  };
  const calibrated = async (dueOn: string) => {
    const id = await work.rows.instrument("Meter");
    const { firmId } = work.service.firm;
    const days = { calibratedOn: new Date("2025-11-01"), dueOn: new Date(dueOn) };
    await inFirm(work.service.db, firmId, (tx) =>
      tx.calibration.create({
        data: {
          firmId,
          id: crypto.randomUUID(),
          instrumentId: id,
          ...days,
          passed: true,
          certificate: "C",
        },
      }),
    );
    return id;
  };

  test("is nothing when no visit is booked; unasked it looks at the firm's tomorrow", async () => {
    expect(await missing()).toEqual({ day: TOMORROW, visits: 0, items: [], next: null });
  });

  test("serves the earlier visit first, counts masks by the crew, less what was used", async () => {
    await stock("BOLT-M10", "Through-bolt M10", 6);
    const day = "2026-11-25";
    const one = await openJob([await newUnit()]);
    const two = await openJob([await newUnit()]);
    await book(two, day, "13:00", [await calibrated("2026-12-31")]);
    await book(one, day, "09:00", [await calibrated("2026-12-31")]);
    const before = await missing(day);
    expect(before.visits).toBe(2);
    expect(before.items.map(({ job }: { job: { id: string } }) => job.id)).toEqual([one, two]);
    const masks = { code: "MASK", name: null, countedIn: null, amount: 2, there: 0 };
    expect(before.items[0].consumables).toEqual([masks]);
    expect(before.items[1].consumables).toEqual([
      {
        ...{ code: "BOLT-M10", name: "Through-bolt M10", countedIn: "piece" },
        ...{ amount: 4, there: 2 },
      },
      masks,
    ]);
    const bolts = await office().get("/api/v1/consumables?code=BOLT-M10");
    const used = { kind: "used", amount: 4, place: "Depot", jobId: one };
    await installer().post(`/api/v1/consumables/${bolts.body.items[0].id}/movements`).send(used);
    const after = await missing(day);
    expect(after.items[1].consumables[0]).toMatchObject({ code: "BOLT-M10", amount: 4, there: 2 });
    expect(after.items[0].consumables).toEqual([masks]);
  });

  test("tells units that are not at hand, and installations without any", async () => {
    const day = "2026-11-26";
    const unitId = await newUnit();
    const jobId = await openJob([unitId]);
    await book(jobId, day, "09:00", [await calibrated("2026-12-31")]);
    await installer().post(`/api/v1/units/${unitId}/quarantine`).send({ reason: "Dropped" });
    const bare = await openJob([]);
    await book(bare, day, "11:00", [await calibrated("2026-12-31")]);
    const { items } = await missing(day);
    expect(items).toMatchObject([
      { units: [{ unitId, problem: "quarantined" }], unitsUnnamed: false },
      { units: [], unitsUnnamed: true },
    ]);
  });

  test.each([
    ["2026-11-27", "2026-11-27", []],
    [
      "2026-11-30",
      "2026-11-29",
      [{ problem: "unfit", sentence: expect.stringMatching(/2026-11-29/) }],
    ],
  ])(
    "an instrument on %s that is due on %s: the due day itself is in date",
    async (day, due, told) => {
      await stock(`M-${day.slice(-2)}`, "x", 1);
      const jobId = await openJob([], "inspection");
      await book(jobId, day, "09:00", [await calibrated(due)]);
      const [item] = (await missing(day)).items;
      expect(item.instruments).toMatchObject(
        told.map((one) => ({ toolClass: "multimeter", ...one })),
      );
    },
  );

  test("an instrument that nobody booked is missing too", async () => {
    const jobId = await openJob([], "inspection");
    await book(jobId, "2026-12-02", "09:00");
    const [item] = (await missing("2026-12-02")).items;
    expect(item.instruments).toEqual([
      { toolClass: "multimeter", problem: "not-booked", reference: null, sentence: null },
    ]);
    expect(item.unpacked).toBe(2);
  });

  test("is read by everybody of the firm and shows nothing of another", async () => {
    const theirs = await work.service
      .as(other.people.installer)
      .get("/api/v1/stock/missing?day=2026-12-02");
    expect(theirs.body).toMatchObject({ visits: 0, items: [] });
  });
});
