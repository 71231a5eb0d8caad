// One visit of today, to a job with a plan of 150 items that are each asked of two units.
import { randomBytes } from "node:crypto";
import { uuidv7 } from "uuidv7";
import type { Database } from "../src/db/client.ts";
import { type FirmTransaction, inFirm } from "../src/db/scope.ts";
import { foundFirm } from "../src/features/firms/store.ts";
import { addPerson } from "../src/features/people/add-person.ts";
import { hashPassword } from "../src/features/session/password.ts";

export const ITEMS = 150;
export const UNITS = 2;
const STAGES = 10;

export interface TabletBenchData {
  email: string;
  password: string;
  jobId: string;
  reference: string;
}

const itemAt = (index: number) => ({
  id: `item_${index}`,
  kind: "confirm",
  title: `Check ${index + 1}`,
  do: "Look at it from the front and from the side, and pull once at each cable.",
  why: "What is loose now is hot later.",
  cautions: ["Isolate, lock off and prove dead; local codes and the maker's instructions prevail."],
  holdPoint: true,
  repeat: { per: "unit" },
});

const PLAN = {
  schema: "plan/1",
  title: "Bench",
  decisionRule: "simple",
  attributes: {},
  stages: Array.from({ length: STAGES }, (_, stage) => ({
    id: `stage_${stage}`,
    title: `Stage ${stage + 1}`,
    items: Array.from({ length: ITEMS / STAGES }, (_, index) =>
      itemAt(stage * (ITEMS / STAGES) + index),
    ),
  })),
};

export async function tabletBenchData(db: Database, now: Date): Promise<TabletBenchData> {
  const password = randomBytes(12).toString("hex");
  const passwordHash = await hashPassword(password);
  const email = "bench@firm.example";
  const firm = { name: "Bench", timeZone: "Europe/London", unitSystem: "metric" as const };
  const { firmId, result: person } = await foundFirm(db, firm, (tx) =>
    addPerson(tx, { email, name: "Bench", roles: ["installer"], passwordHash }),
  );
  const jobId = uuidv7();
  const reference = "J-BENCH";
  await inFirm(db, firmId, async (tx) => {
    const siteId = await addSite(tx);
    const planVersionId = await addPlan(tx);
    const own = { firmId, id: jobId, reference, siteId, planVersionId };
    await tx.job.create({ data: { ...own, kind: "install", title: "Bench" } });
    await addUnits(tx, jobId);
    await addVisit(tx, jobId, person.id, now);
  });
  return { email, password, jobId, reference };
}

async function addSite(tx: FirmTransaction): Promise<string> {
  const { firmId } = tx;
  const [customerId, id] = [uuidv7(), uuidv7()];
  await tx.customer.create({ data: { firmId, id: customerId, reference: "C-1", name: "Bench" } });
  const place = { addressLine: "1 Bench Row", locality: "Bench", postcode: "B", country: "GB" };
  const where = { latitude: 51, longitude: 0, timeZone: "Europe/London" };
  const own = { firmId, id, reference: "S-1", customerId, supply: "TT", region: "uk" };
  await tx.site.create({ data: { ...own, ...place, ...where } });
  return id;
}

async function addPlan(tx: FirmTransaction): Promise<string> {
  const { firmId } = tx;
  const [planId, id] = [uuidv7(), uuidv7()];
  await tx.plan.create({ data: { firmId, id: planId, code: "B", title: "Bench" } });
  const version = { number: 1, state: "published", sha256: "0".repeat(64) };
  await tx.planVersion.create({ data: { firmId, id, planId, document: PLAN, ...version } });
  return id;
}

async function addUnits(tx: FirmTransaction, jobId: string): Promise<void> {
  const { firmId } = tx;
  const modelId = uuidv7();
  const model = { code: "B", name: "Bench pack", maker: "Bench", kind: "battery-pack" };
  const rules = { serialMask: "*{8}", serialCheck: "none", firmwareScheme: "semver" };
  await tx.productModel.create({
    data: { firmId, id: modelId, attributes: {}, ...model, ...rules },
  });
  for (let position = 1; position <= UNITS; position += 1) {
    const id = uuidv7();
    const serial = String(position).padStart(8, "0");
    await tx.unit.create({ data: { firmId, id, modelId, serial, state: "received" } });
    await tx.jobUnit.create({ data: { firmId, jobId, unitId: id, position } });
  }
}

async function addVisit(
  tx: FirmTransaction,
  jobId: string,
  personId: string,
  now: Date,
): Promise<void> {
  const { firmId } = tx;
  const [crewId, id] = [uuidv7(), uuidv7()];
  await tx.crew.create({ data: { firmId, id: crewId, name: "Bench" } });
  await tx.crewMember.create({ data: { firmId, crewId, personId } });
  const endsAt = new Date(now.getTime() + 3_600_000);
  await tx.visit.create({ data: { firmId, id, jobId, crewId, startsAt: now, endsAt } });
}
