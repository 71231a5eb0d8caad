import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";

const WITH_MEMBERS = {
  members: { include: { person: true }, orderBy: { person: { name: "asc" } } },
} as const;

export async function listCrews(
  tx: FirmTransaction,
  filter: { active: boolean; after?: string; most: number },
) {
  return tx.crew.findMany({
    where: {
      firmId: tx.firmId,
      active: filter.active,
      ...(filter.after ? { id: { gt: filter.after } } : {}),
    },
    include: WITH_MEMBERS,
    orderBy: { id: "asc" },
    take: filter.most,
  });
}

export async function crewsById(tx: FirmTransaction, ids: string[]) {
  return tx.crew.findMany({
    where: { firmId: tx.firmId, id: { in: ids } },
    include: WITH_MEMBERS,
    take: ids.length,
  });
}

export async function findCrew(tx: FirmTransaction, id: string) {
  return tx.crew.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id } },
    include: WITH_MEMBERS,
  });
}

/** Undefined when another crew has this name. */
export async function addCrew(tx: FirmTransaction, name: string): Promise<string | undefined> {
  const [row] = await tx.crew.createManyAndReturn({
    data: [{ firmId: tx.firmId, id: uuidv7(), name }],
    skipDuplicates: true,
  });
  return row?.id;
}

export async function isCrewNameTaken(
  tx: FirmTransaction,
  name: string,
  exceptId: string,
): Promise<boolean> {
  const row = await tx.crew.findFirst({
    where: { firmId: tx.firmId, name, id: { not: exceptId } },
    select: { id: true },
  });
  return row !== null;
}

/** False when the row has another version by now. Also locks the crew for this transaction. */
export async function editCrew(
  tx: FirmTransaction,
  id: string,
  version: number,
  change: { name?: string; active?: boolean },
): Promise<boolean> {
  const { count } = await tx.crew.updateMany({
    where: { firmId: tx.firmId, id, version },
    data: { ...change, version: { increment: 1 } },
  });
  return count === 1;
}

/** Which of these people are active installers of the firm. */
export async function activeInstallers(tx: FirmTransaction, ids: string[]): Promise<string[]> {
  const rows = await tx.person.findMany({
    where: { firmId: tx.firmId, id: { in: ids }, active: true, roles: { has: "installer" } },
    select: { id: true },
  });
  return rows.map(({ id }) => id);
}

export async function replaceMembers(
  tx: FirmTransaction,
  crewId: string,
  personIds: string[],
): Promise<void> {
  await tx.crewMember.deleteMany({ where: { firmId: tx.firmId, crewId } });
  await tx.crewMember.createMany({
    data: personIds.map((personId) => ({ firmId: tx.firmId, crewId, personId })),
  });
}
