// Sites, crews, instruments, models and units, made straight in the database for tests whose
// subject is the work done with them.
import { uuidv7 } from "uuidv7";
import { type FirmTransaction, inFirm } from "../../src/db/scope.ts";
import { startService, type TestFirm, type TestService } from "./app.ts";

type Make = (work: (tx: FirmTransaction, id: string) => Promise<unknown>) => Promise<string>;

/** Makers of rows in one firm; each returns the id. */
export function rowsIn(service: TestService, { firmId }: TestFirm = service.firm) {
  const make: Make = async (work) => {
    const id = uuidv7();
    await inFirm(service.db, firmId, (tx) => work(tx, id));
    return id;
  };
  return { ...placeRows(firmId, make), ...crewRows(firmId, make), ...unitRows(firmId, make) };
}

export type Rows = ReturnType<typeof rowsIn>;

const mark = (id: string): string => id.slice(-8).toUpperCase();

function placeRows(firmId: string, make: Make) {
  return {
    site: async (fields: { timeZone?: string; archivedAt?: Date } = {}) => {
      const customerId = await make((tx, id) =>
        tx.customer.create({ data: { firmId, id, reference: `C-${mark(id)}`, name: "Ida Rook" } }),
      );
      const id = await make((tx, siteId) => {
        const own = { firmId, id: siteId, reference: `S-${mark(siteId)}`, customerId };
        return tx.site.create({ data: { ...SITE, ...own, ...fields } });
      });
      return { id, customerId };
    },
    planVersion: async (document: object) => {
      const planId = await make((tx, id) =>
        tx.plan.create({ data: { firmId, id, code: `P-${mark(id)}`, title: "Practice" } }),
      );
      const id = await make((tx, versionId) =>
        tx.planVersion.create({ data: { ...VERSION, firmId, id: versionId, planId, document } }),
      );
      return { id, planId };
    },
    job: (siteId: string, planVersionId: string) =>
      make((tx, id) => {
        const own = { firmId, id, reference: `J-${mark(id)}`, siteId, planVersionId };
        return tx.job.create({ data: { ...own, kind: "install", title: "Practice job" } });
      }),
  };
}

function crewRows(firmId: string, make: Make) {
  return {
    person: (name: string, fields: { active?: boolean } = {}) =>
      make((tx, id) => {
        const own = { firmId, id, name, email: `${id}@crew.example`, roles: ["installer"] };
        return tx.person.create({ data: { ...own, ...fields } });
      }),
    crew: (name: string, personIds: string[], fields: { active?: boolean } = {}) =>
      make(async (tx, id) => {
        await tx.crew.create({ data: { firmId, id, name, ...fields } });
        const members = personIds.map((personId) => ({ firmId, crewId: id, personId }));
        await tx.crewMember.createMany({ data: members });
      }),
    instrument: (name: string, fields: { retiredOn?: Date } = {}) =>
      make((tx, id) => {
        const own = { firmId, id, reference: `I-${mark(id)}`, name, serial: mark(id) };
        return tx.instrument.create({ data: { ...own, instrumentClass: "multimeter", ...fields } });
      }),
  };
}

function unitRows(firmId: string, make: Make) {
  return {
    model: (fields: { kind?: string; attributes?: object } = {}) =>
      make((tx, id) =>
        tx.productModel.create({
          data: { ...MODEL, firmId, id, code: `HERON-${mark(id)}`, ...fields },
        }),
      ),
    unit: (modelId: string, fields: { siteId?: string; state?: string } = {}) =>
      make((tx, id) => {
        const own = { firmId, id, modelId, serial: `HN${mark(id)}`, state: "received" };
        return tx.unit.create({ data: { ...own, ...fields } });
      }),
  };
}

const SITE = {
  addressLine: "4 Kiln Lane",
  locality: "Thornbeck",
  postcode: "TB4 1AA",
  country: "GB",
  latitude: 51.5,
  longitude: -2.5,
  timeZone: "Europe/London",
  supply: "TN-C-S",
  region: "uk",
};

const MODEL = {
  name: "Heron 5",
  maker: "Harrowmere",
  kind: "battery-pack",
  attributes: {},
  serialMask: "HN*{8}",
  serialCheck: "none",
  firmwareScheme: "semver",
};

const VERSION = {
  number: 1,
  state: "published",
  sha256: "0".repeat(64),
  publishedAt: new Date("2026-01-05T09:00:00Z"),
};

/** The least document that can be published: one hold point. */
export const SMALL_PLAN = {
  schema: "plan/1",
  title: "Small plan",
  decisionRule: "simple",
  attributes: {},
  stages: [
    {
      id: "isolation",
      title: "Isolate and prove dead",
      items: [
        {
          kind: "confirm",
          id: "proved_dead",
          title: "Proved dead",
          do: "Prove the tester, prove dead, prove the tester again.",
          cautions: ["Licensed persons only; local codes and the maker's instructions prevail."],
          holdPoint: true,
        },
      ],
    },
  ],
};

export const NOW = new Date("2026-11-20T09:00:00Z");

export type Work = Awaited<ReturnType<typeof startWork>>;

/** The service, its clock standing, with a site, a published plan and a product model. */
export async function startWork(now = NOW) {
  const service = await startService({ now: () => now });
  const rows = rowsIn(service);
  const site = await rows.site();
  const version = await rows.planVersion(SMALL_PLAN);
  const modelId = await rows.model();
  return {
    service,
    rows,
    siteId: site.id,
    planId: version.planId,
    planVersionId: version.id,
    modelId,
  };
}
