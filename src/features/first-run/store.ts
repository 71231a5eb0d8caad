import type { FirmTransaction } from "../../db/scope.ts";

/** In the transaction that founds a firm: whether it is the only one, others waiting meanwhile. */
export async function isFirstFirm(tx: FirmTransaction): Promise<boolean> {
  await tx.$executeRaw`SELECT pg_advisory_xact_lock(hashtext('first firm'))`;
  await tx.$executeRaw`SELECT set_config('app.purpose', 'runs', true)`;
  const firms = await tx.firm.findMany({ select: { id: true }, take: 2 });
  await tx.$executeRaw`SELECT set_config('app.purpose', '', true)`;
  return firms.length === 1;
}

/** What a firm has of all that a first visit takes, in one look. */
export interface Begun {
  installers: boolean;
  crew: boolean;
  model: boolean;
  instrument: boolean;
  plan: boolean;
  customer: boolean;
  site: boolean;
  job: boolean;
  visit: boolean;
}

export async function readBegun(tx: FirmTransaction): Promise<Begun> {
  const firm = tx.firmId;
  const [row] = await tx.$queryRaw<Begun[]>`SELECT
    EXISTS (SELECT FROM person WHERE firm_id = ${firm}::uuid AND active
      AND 'installer' = ANY (roles)) AS installers,
    EXISTS (SELECT FROM crew_member WHERE firm_id = ${firm}::uuid) AS crew,
    EXISTS (SELECT FROM product_model WHERE firm_id = ${firm}::uuid) AS model,
    EXISTS (SELECT FROM instrument WHERE firm_id = ${firm}::uuid) AS instrument,
    EXISTS (SELECT FROM plan_version WHERE firm_id = ${firm}::uuid
      AND state = 'published') AS plan,
    EXISTS (SELECT FROM customer WHERE firm_id = ${firm}::uuid) AS customer,
    EXISTS (SELECT FROM site WHERE firm_id = ${firm}::uuid) AS site,
    EXISTS (SELECT FROM job WHERE firm_id = ${firm}::uuid) AS job,
    EXISTS (SELECT FROM visit WHERE firm_id = ${firm}::uuid) AS visit`;
  if (!row) throw new Error("a SELECT without FROM gives one row");
  return row;
}
