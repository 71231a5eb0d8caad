import { uuidv7 } from "uuidv7";
import { Prisma } from "../../db/generated/client.ts";
import type { FirmTransaction } from "../../db/scope.ts";

/** Large, and of use only where the plan itself is read. */
const WITHOUT_DOCUMENT = { document: true, previousDocument: true } as const;

const WITH_HEADS = {
  versions: { omit: WITHOUT_DOCUMENT, orderBy: { number: "desc" } },
} as const;

export interface PlanFilter {
  code?: string;
  title?: string;
  after?: string;
  most: number;
}

export async function listPlans(tx: FirmTransaction, filter: PlanFilter) {
  const { code, title, after } = filter;
  return tx.plan.findMany({
    where: {
      firmId: tx.firmId,
      ...(code ? { code: code.toUpperCase() } : {}),
      ...(title ? { title: { contains: title, mode: "insensitive" } } : {}),
      ...(after ? { id: { gt: after } } : {}),
    },
    include: WITH_HEADS,
    orderBy: { id: "asc" },
    take: filter.most,
  });
}

/** The plan with its versions, the latest first, without their documents. */
export async function plansById(tx: FirmTransaction, ids: readonly string[]) {
  return tx.plan.findMany({
    where: { firmId: tx.firmId, id: { in: [...ids] } },
    include: WITH_HEADS,
    take: ids.length,
  });
}

export async function findPlan(tx: FirmTransaction, id: string) {
  return tx.plan.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id } },
    include: WITH_HEADS,
  });
}

export type PlanRow = NonNullable<Awaited<ReturnType<typeof findPlan>>>;

/** As `findPlan`, locked: numbers are given, and drafts opened, by one at a time. */
export async function lockPlan(tx: FirmTransaction, id: string): Promise<PlanRow | null> {
  await tx.$queryRaw`SELECT id FROM plan WHERE firm_id = ${tx.firmId}::uuid AND id = ${id}::uuid
    FOR NO KEY UPDATE`;
  return findPlan(tx, id);
}

/** Undefined when another plan has this code. */
export async function addPlan(
  tx: FirmTransaction,
  fields: { code: string; title: string },
): Promise<string | undefined> {
  const [row] = await tx.plan.createManyAndReturn({
    data: [{ firmId: tx.firmId, id: uuidv7(), ...fields }],
    skipDuplicates: true,
  });
  return row?.id;
}

/** False when the row has another version by now. */
export async function editPlan(
  tx: FirmTransaction,
  id: string,
  version: number,
  change: { title?: string },
): Promise<boolean> {
  const { count } = await tx.plan.updateMany({
    where: { firmId: tx.firmId, id, version },
    data: { ...change, version: { increment: 1 } },
  });
  return count === 1;
}

export async function listVersions(
  tx: FirmTransaction,
  planId: string,
  page: { after?: string; most: number },
) {
  return tx.planVersion.findMany({
    where: { firmId: tx.firmId, planId, ...(page.after ? { id: { gt: page.after } } : {}) },
    omit: WITHOUT_DOCUMENT,
    orderBy: { id: "asc" },
    take: page.most,
  });
}

export async function findPlanVersion(tx: FirmTransaction, id: string) {
  return tx.planVersion.findUnique({ where: { firmId_id: { firmId: tx.firmId, id } } });
}

export type PlanVersionRow = NonNullable<Awaited<ReturnType<typeof findPlanVersion>>>;

export async function findVersionByNumber(tx: FirmTransaction, planId: string, number: number) {
  return tx.planVersion.findUnique({
    where: { firmId_planId_number: { firmId: tx.firmId, planId, number } },
  });
}

export async function latestPublished(tx: FirmTransaction, planId: string) {
  return tx.planVersion.findFirst({
    where: { firmId: tx.firmId, planId, state: "published" },
    orderBy: { number: "desc" },
  });
}

/** Which of these codes plans of the firm have. */
export async function planCodes(
  tx: FirmTransaction,
  codes: readonly string[],
): Promise<Set<string>> {
  const rows = await tx.plan.findMany({
    where: { firmId: tx.firmId, code: { in: [...codes] } },
    select: { code: true },
  });
  return new Set(rows.map(({ code }) => code));
}

/** Open jobs by the id of the version that they work by. */
export async function countOpenJobs(
  tx: FirmTransaction,
  versionIds: readonly string[],
): Promise<Map<string, number>> {
  const rows = await tx.job.groupBy({
    by: ["planVersionId"],
    where: { firmId: tx.firmId, state: "open", planVersionId: { in: [...versionIds] } },
    _count: true,
  });
  return new Map(rows.map((row) => [row.planVersionId, row._count]));
}

export interface DraftRow {
  planId: string;
  number: number;
  document: object;
  sha256: string;
}

export async function addDraft(tx: FirmTransaction, draft: DraftRow): Promise<PlanVersionRow> {
  return tx.planVersion.create({
    data: { firmId: tx.firmId, id: uuidv7(), state: "draft", ...draft },
  });
}

/** Undefined when the row has another version by now. What it said before can be taken back. */
export async function putDocument(
  tx: FirmTransaction,
  id: string,
  version: number,
  content: { document: object; previousDocument: object; sha256: string },
): Promise<PlanVersionRow | undefined> {
  const [row] = await tx.planVersion.updateManyAndReturn({
    where: { firmId: tx.firmId, id, version, state: "draft" },
    data: { ...content, version: { increment: 1 } },
  });
  return row;
}

/** Undefined when the row has another version by now; from here on the database freezes it. */
export async function markPublished(
  tx: FirmTransaction,
  id: string,
  version: number,
  publication: { publishedAt: Date; publishedById: string; sha256: string },
): Promise<PlanVersionRow | undefined> {
  const [row] = await tx.planVersion.updateManyAndReturn({
    where: { firmId: tx.firmId, id, version, state: "draft" },
    data: {
      ...publication,
      state: "published",
      previousDocument: Prisma.DbNull,
      version: { increment: 1 },
    },
  });
  return row;
}
