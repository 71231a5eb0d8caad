// A firm with units to read and jobs to answer, on a durable server of its own.
import { randomBytes } from "node:crypto";
import { uuidv7 } from "uuidv7";
import type { Database } from "../src/db/client.ts";
import { inFirm } from "../src/db/scope.ts";
import { foundFirm } from "../src/features/firms/store.ts";
import { addPerson } from "../src/features/people/add-person.ts";
import { hashPassword } from "../src/features/session/password.ts";

export interface BenchData {
  firmId: string;
  personId: string;
  siteId: string;
  email: string;
  password: string;
  unitIds: string[];
  jobIds: string[];
  instrumentId: string;
}

const UNITS = 20_000;
const JOBS = 600;
export const ITEMS = 150;

const PLAN = {
  schema: "plan/1",
  title: "Bench",
  decisionRule: "simple",
  attributes: {},
  stages: [
    {
      id: "all",
      title: "All",
      items: Array.from({ length: ITEMS }, (_, index) => ({
        id: `item_${index}`,
        kind: "measure",
        title: `Item ${index}`,
        do: "Measure",
        holdPoint: true,
        unit: "V",
        limit: { min: 38 },
        instrument: { class: "multimeter" },
      })),
    },
  ],
};

export async function benchData(
  db: Database,
  email = "bench@firm.example",
  { units, jobs } = { units: UNITS, jobs: JOBS },
): Promise<BenchData> {
  const password = randomBytes(12).toString("hex");
  const { firmId, personId } = await found(db, email, password);
  const unitIds = Array.from({ length: units }, () => uuidv7());
  const jobIds = Array.from({ length: jobs }, () => uuidv7());
  const [customerId, siteId, modelId, planId, planVersionId, instrumentId] = Array.from(
    { length: 6 },
    () => uuidv7(),
  ) as [string, string, string, string, string, string];
  await inFirm(db, firmId, async (tx) => {
    await tx.customer.create({ data: { firmId, id: customerId, reference: "C-1", name: "Bench" } });
    await tx.site.create({
      data: {
        firmId,
        id: siteId,
        reference: "S-1",
        customerId,
        addressLine: "1",
        locality: "B",
        postcode: "B",
        country: "GB",
        latitude: 51,
        longitude: 0,
        timeZone: "Europe/London",
        supply: "TT",
        region: "uk",
      },
    });
    await tx.productModel.create({
      data: {
        firmId,
        id: modelId,
        code: "B",
        name: "B",
        maker: "B",
        kind: "battery-pack",
        attributes: {},
        serialMask: "*{8}",
        serialCheck: "none",
        firmwareScheme: "semver",
      },
    });
    await tx.instrument.create({
      data: {
        firmId,
        id: instrumentId,
        reference: "M-1",
        name: "M",
        instrumentClass: "multimeter",
        serial: "1",
        calibrations: {
          create: {
            id: uuidv7(),
            calibratedOn: new Date("2026-01-05"),
            dueOn: new Date("2028-01-05"),
            passed: true,
            certificate: "1",
          },
        },
      },
    });
    await tx.plan.create({ data: { firmId, id: planId, code: "B", title: "B" } });
    await tx.planVersion.create({
      data: {
        firmId,
        id: planVersionId,
        planId,
        number: 1,
        state: "published",
        document: PLAN,
        sha256: "0".repeat(64),
      },
    });
    await tx.unit.createMany({
      data: unitIds.map((id, index) => ({
        firmId,
        id,
        modelId,
        serial: String(index).padStart(8, "0"),
        state: "installed",
        siteId,
      })),
    });
    await tx.job.createMany({
      data: jobIds.map((id, index) => ({
        firmId,
        id,
        reference: `J-${index}`,
        siteId,
        kind: "inspection",
        title: "Bench",
        planVersionId,
      })),
    });
  });
  return { firmId, personId, siteId, email, password, unitIds, jobIds, instrumentId };
}

async function found(db: Database, email: string, password: string) {
  const passwordHash = await hashPassword(password);
  const firm = { name: "Bench", timeZone: "Europe/London", unitSystem: "metric" as const };
  const roles = ["owner", "installer", "manager"] as const;
  const { firmId, result } = await foundFirm(db, firm, (tx) =>
    addPerson(tx, { email, name: "Bench", roles: [...roles], passwordHash }),
  );
  return { firmId, personId: result.id };
}
