import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";

export interface AccessFields {
  personId: string;
  outside: boolean;
  fromOn: Date;
  untilOn: Date | null;
  periodFrom: Date | null;
  periodTo: Date | null;
  modelIds: string[];
  siteIds: string[];
  givenById: string;
  givenAt: Date;
}

const WHO = { select: { name: true, email: true } } as const;

export async function addAccess(tx: FirmTransaction, fields: AccessFields) {
  const { id } = await tx.auditAccess.create({
    data: { firmId: tx.firmId, id: uuidv7(), ...fields },
    select: { id: true },
  });
  return id;
}

/** False when none stands. */
export async function withdrawAccess(
  tx: FirmTransaction,
  personId: string,
  { withdrawnById, withdrawnAt }: { withdrawnById: string; withdrawnAt: Date },
): Promise<boolean> {
  const { count } = await tx.auditAccess.updateMany({
    where: { firmId: tx.firmId, personId, withdrawnAt: null },
    data: { withdrawnById, withdrawnAt },
  });
  return count > 0;
}

/** What was ever given to the person, the latest first. */
export async function listAccesses(tx: FirmTransaction, personId: string, most: number) {
  return tx.auditAccess.findMany({
    where: { firmId: tx.firmId, personId },
    include: { givenBy: WHO, withdrawnBy: WHO },
    orderBy: { id: "desc" },
    take: most,
  });
}
export type AccessRow = Awaited<ReturnType<typeof listAccesses>>[number];

export async function findAccess(tx: FirmTransaction, id: string) {
  return tx.auditAccess.findUnique({ where: { firmId_id: { firmId: tx.firmId, id } } });
}

/** Who gives what the firm's custom gives: whoever is at work here, or an owner. */
export async function giverFor(tx: FirmTransaction, personId: string): Promise<string> {
  const [found] = await tx.$queryRaw<{ id: string }[]>`
    SELECT coalesce(nullif(current_setting('app.person_id', true), '')::uuid,
      (SELECT id FROM person WHERE firm_id = ${tx.firmId}::uuid AND active
       AND 'owner' = ANY (roles) ORDER BY id LIMIT 1), ${personId}::uuid) AS id`;
  return found?.id ?? personId;
}

export const isOnlyAuditor = (roles: readonly string[]): boolean =>
  roles.length === 1 && roles[0] === "auditor";

export const isScoped = (row: Pick<AccessFields, "periodFrom" | "modelIds" | "siteIds">): boolean =>
  row.periodFrom !== null || row.modelIds.length > 0 || row.siteIds.length > 0;

/** Of these models those that the firm has, by name. */
export async function modelsNamed(tx: FirmTransaction, ids: readonly string[]) {
  return tx.productModel.findMany({
    where: { firmId: tx.firmId, id: { in: [...ids] } },
    select: { id: true, code: true },
    orderBy: [{ code: "asc" }, { id: "asc" }],
    take: ids.length,
  });
}

/** Of these sites those that the firm has, by reference. */
export async function sitesNamed(tx: FirmTransaction, ids: readonly string[]) {
  return tx.site.findMany({
    where: { firmId: tx.firmId, id: { in: [...ids] } },
    select: { id: true, reference: true },
    orderBy: { reference: "asc" },
    take: ids.length,
  });
}

export async function sitesByReference(tx: FirmTransaction, references: readonly string[]) {
  return tx.site.findMany({
    where: { firmId: tx.firmId, reference: { in: [...references] } },
    select: { id: true, reference: true },
    orderBy: { reference: "asc" },
    take: references.length,
  });
}

/** Models to choose from. */
export async function modelChoices(tx: FirmTransaction, most: number) {
  return tx.productModel.findMany({
    where: { firmId: tx.firmId },
    select: { id: true, code: true, name: true },
    orderBy: [{ code: "asc" }, { id: "asc" }],
    take: most,
  });
}
