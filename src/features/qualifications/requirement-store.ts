import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";
import type { Requirement } from "../../domain/scheduling/qualified.ts";
import type { NewRequirement } from "./schemas.ts";

const WITH_KIND = { kind: { select: { id: true, name: true, warnDays: true } } } as const;

export async function listRequirements(
  tx: FirmTransaction,
  { jobKind, after, most }: { jobKind?: string; after?: string; most: number },
) {
  return tx.qualificationRequirement.findMany({
    where: {
      firmId: tx.firmId,
      ...(jobKind ? { jobKind } : {}),
      ...(after ? { id: { gt: after } } : {}),
    },
    include: WITH_KIND,
    orderBy: { id: "asc" },
    take: most,
  });
}

export type RequirementRow = Awaited<ReturnType<typeof listRequirements>>[number];

/** Undefined when this kind of job asks for it already. */
export async function addRequirement(
  tx: FirmTransaction,
  fields: NewRequirement,
): Promise<RequirementRow | undefined> {
  const [row] = await tx.qualificationRequirement.createManyAndReturn({
    data: [{ firmId: tx.firmId, id: uuidv7(), ...fields }],
    skipDuplicates: true,
    include: WITH_KIND,
  });
  return row;
}

export async function findRequirement(
  tx: FirmTransaction,
  id: string,
): Promise<RequirementRow | null> {
  return tx.qualificationRequirement.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id } },
    include: WITH_KIND,
  });
}

/** False when it is not there. */
export async function removeRequirement(tx: FirmTransaction, id: string): Promise<boolean> {
  const { count } = await tx.qualificationRequirement.deleteMany({
    where: { firmId: tx.firmId, id },
  });
  return count === 1;
}

/** What each kind of job asks for. */
export async function requirementsByKind(
  tx: FirmTransaction,
): Promise<ReadonlyMap<string, Requirement[]>> {
  const rows = await tx.qualificationRequirement.findMany({
    where: { firmId: tx.firmId },
    include: WITH_KIND,
    orderBy: { id: "asc" },
  });
  const found = new Map<string, Requirement[]>();
  for (const { jobKind, askedOf, kind } of rows) {
    const requirement = {
      ...{ kindId: kind.id, kindName: kind.name, warnDays: kind.warnDays },
      askedOf: askedOf as Requirement["askedOf"],
    };
    found.set(jobKind, [...(found.get(jobKind) ?? []), requirement]);
  }
  return found;
}
