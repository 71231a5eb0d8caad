import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";
import type { RulePack } from "../../domain/siting/rule-pack.ts";

export interface PackContent {
  document: RulePack;
  sha256: string;
  personId: string;
  createdAt: Date;
}

/** The firm's own packs, without their documents; there are never many. */
export async function listPackHeads(tx: FirmTransaction, filter: { region?: string } = {}) {
  return tx.rulePack.findMany({
    where: { firmId: tx.firmId, ...(filter.region ? { region: filter.region } : {}) },
    orderBy: { id: "asc" },
  });
}

export async function countPacks(tx: FirmTransaction): Promise<number> {
  return tx.rulePack.count({ where: { firmId: tx.firmId } });
}

export async function findPackHead(tx: FirmTransaction, code: string) {
  return tx.rulePack.findUnique({ where: { firmId_code: { firmId: tx.firmId, code } } });
}

export async function findPackVersion(tx: FirmTransaction, rulePackId: string, number: number) {
  const firmId = tx.firmId;
  return tx.rulePackVersion.findUnique({
    where: { firmId_rulePackId_number: { firmId, rulePackId, number } },
  });
}

export async function listPackVersions(
  tx: FirmTransaction,
  rulePackId: string,
  page: { after?: string; most: number },
) {
  return tx.rulePackVersion.findMany({
    where: { firmId: tx.firmId, rulePackId, ...(page.after ? { id: { gt: page.after } } : {}) },
    omit: { document: true },
    orderBy: { id: "asc" },
    take: page.most,
  });
}

/** False when the firm has a pack of this code. */
export async function addPack(tx: FirmTransaction, content: PackContent): Promise<boolean> {
  const { id: code, region, title } = content.document;
  const [head] = await tx.rulePack.createManyAndReturn({
    data: [{ firmId: tx.firmId, id: uuidv7(), code, region, title }],
    skipDuplicates: true,
  });
  if (!head) return false;
  await addVersion(tx, head.id, 1, content);
  return true;
}

/** False when the pack has another version by now. */
export async function replacePack(
  tx: FirmTransaction,
  id: string,
  version: number,
  content: PackContent,
): Promise<boolean> {
  const { region, title } = content.document;
  const { count } = await tx.rulePack.updateMany({
    where: { firmId: tx.firmId, id, version },
    data: { region, title, version: { increment: 1 } },
  });
  if (count === 0) return false;
  await addVersion(tx, id, version + 1, content);
  return true;
}

async function addVersion(
  tx: FirmTransaction,
  rulePackId: string,
  number: number,
  { document, ...rest }: PackContent,
): Promise<void> {
  await tx.rulePackVersion.create({
    data: {
      firmId: tx.firmId,
      id: uuidv7(),
      rulePackId,
      number,
      document: document as object,
      ...rest,
    },
  });
}
