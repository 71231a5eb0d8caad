import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";
import type { Survey } from "../../domain/siting/survey.ts";

export interface SurveyFields {
  siteId: string;
  number: number;
  document: Survey;
  sha256: string;
  personId: string;
  createdAt: Date;
}

export async function currentSurvey(tx: FirmTransaction, siteId: string) {
  return tx.survey.findFirst({
    where: { firmId: tx.firmId, siteId },
    include: { person: { select: { name: true } } },
    orderBy: { number: "desc" },
  });
}

export type SurveyRow = NonNullable<Awaited<ReturnType<typeof currentSurvey>>>;

export async function findSurvey(
  tx: FirmTransaction,
  siteId: string,
  number: number,
): Promise<SurveyRow | null> {
  return tx.survey.findUnique({
    where: { firmId_siteId_number: { firmId: tx.firmId, siteId, number } },
    include: { person: { select: { name: true } } },
  });
}

export async function listSurveys(
  tx: FirmTransaction,
  siteId: string,
  page: { after?: string; most: number },
) {
  return tx.survey.findMany({
    where: { firmId: tx.firmId, siteId, ...(page.after ? { id: { gt: page.after } } : {}) },
    omit: { document: true },
    include: { person: { select: { name: true } } },
    orderBy: { id: "asc" },
    take: page.most,
  });
}

/** False when the site has a survey of this number by now. */
export async function addSurvey(tx: FirmTransaction, fields: SurveyFields): Promise<boolean> {
  const document = fields.document as object;
  const { count } = await tx.survey.createMany({
    data: [{ ...fields, firmId: tx.firmId, id: uuidv7(), document }],
    skipDuplicates: true,
  });
  return count === 1;
}
