// A visit of today for the installer: a short plan with an item of every kind, two packs,
// instruments of which one is out of date. Test values, nothing more.
import { uuidv7 } from "uuidv7";
import { inFirm } from "../../src/db/scope.ts";
import type { TestService } from "./app.ts";
import { addVisit } from "./booked-visits.ts";
import { TABLET_PLAN, TABLET_SWITCH_MAP } from "./tablet-plan.ts";
import { rowsIn } from "./work-rows.ts";

export interface TabletVisitRows {
  jobId: string;
  serials: string[];
  unitIds: string[];
}

const HOUR_MS = 3_600_000;

/** Books the visit around now. */
export async function addTabletVisit(service: TestService, now: Date): Promise<TabletVisitRows> {
  const { firmId } = service.firm;
  const rows = rowsIn(service);
  const { id: siteId } = await rows.site();
  const { id: planVersionId } = await rows.planVersion(TABLET_PLAN);
  const jobId = await rows.job(siteId, planVersionId);
  const mark = jobId.slice(-6).toUpperCase();
  const crewId = await rows.crew(`North ${mark}`, [service.firm.people.installer.id]);
  const instrumentIds = await addInstruments(service, now, mark);
  const units = await addPacks(service, jobId);
  await inFirm(service.db, firmId, (tx) =>
    tx.job.update({
      where: { firmId_id: { firmId, id: jobId } },
      data: { title: "Install two packs" },
    }),
  );
  const at = (hours: number): string => new Date(now.getTime() + hours * HOUR_MS).toISOString();
  await addVisit(service, { jobId, crewId, startsAt: at(-1), endsAt: at(3), instrumentIds });
  return { jobId, ...units };
}

async function addPacks(service: TestService, jobId: string) {
  const { firmId } = service.firm;
  const mark = jobId.slice(-6).toUpperCase();
  const modelId = uuidv7();
  const unitIds = [uuidv7(), uuidv7()];
  const serials = unitIds.map((_id, index) => `HN${mark}${index + 1}`);
  await inFirm(service.db, firmId, async (tx) => {
    await tx.productModel.create({
      data: {
        ...{ firmId, id: modelId, code: `HERON-${mark}`, name: "Heron 5", maker: "Harrowmere" },
        ...{ kind: "battery-pack", attributes: {}, serialMask: "HN*{7}", serialCheck: "none" },
        ...{ firmwareScheme: "semver", switchMap: TABLET_SWITCH_MAP },
      },
    });
    for (const [index, id] of unitIds.entries()) {
      const serial = serials[index]!;
      await tx.unit.create({ data: { firmId, id, modelId, serial, state: "received" } });
      await tx.jobUnit.create({ data: { firmId, jobId, unitId: id, position: index + 1 } });
    }
  });
  return { unitIds, serials };
}

const DAY_MS = 86_400_000;

async function addInstruments(service: TestService, now: Date, mark: string): Promise<string[]> {
  const { firmId } = service.firm;
  const on = (days: number): Date => new Date(now.getTime() + days * DAY_MS);
  const wanted = [
    { reference: "DG-02", name: "Depth gauge", instrumentClass: "depth-gauge", dueOn: on(200) },
    { reference: "MM-07", name: "Meter", instrumentClass: "multimeter", dueOn: on(200) },
    { reference: "MM-03", name: "Meter", instrumentClass: "multimeter", dueOn: on(-20) },
    { reference: "TW-11", name: "Wrench", instrumentClass: "torque-wrench", dueOn: on(200) },
  ];
  const ids: string[] = [];
  await inFirm(service.db, firmId, async (tx) => {
    for (const { dueOn, ...fields } of wanted) {
      const id = uuidv7();
      ids.push(id);
      const reference = `${fields.reference}-${mark}`;
      const serial = id.slice(-8);
      await tx.instrument.create({ data: { firmId, id, serial, ...fields, reference } });
      const own = { firmId, id: uuidv7(), instrumentId: id, passed: true, certificate: "K-1" };
      await tx.calibration.create({ data: { ...own, calibratedOn: on(-160), dueOn } });
    }
  });
  return ids;
}
