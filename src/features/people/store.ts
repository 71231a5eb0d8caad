import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";
import type { Role } from "../../web/roles.ts";

export interface NewPersonRow {
  email: string;
  name: string;
  roles: Role[];
  passwordHash: string | null;
  /** When whoever else set it did so: it is good for some days. */
  passwordGivenAt?: Date;
}

export async function insertPerson(tx: FirmTransaction, person: NewPersonRow) {
  return tx.person.create({ data: { firmId: tx.firmId, id: uuidv7(), ...person } });
}

/** Undefined when somebody, in whichever firm, signs in with this address already. */
export async function insertPersonUnlessTaken(tx: FirmTransaction, person: NewPersonRow) {
  const [row] = await tx.person.createManyAndReturn({
    data: [{ firmId: tx.firmId, id: uuidv7(), ...person }],
    skipDuplicates: true,
  });
  return row;
}

export interface PersonFilter {
  name?: string;
  role?: Role;
  active: boolean;
  after?: string;
  most: number;
}

export async function listPeople(tx: FirmTransaction, filter: PersonFilter) {
  return tx.person.findMany({
    where: {
      firmId: tx.firmId,
      active: filter.active,
      ...(filter.after ? { id: { gt: filter.after } } : {}),
      ...(filter.role ? { roles: { has: filter.role } } : {}),
      ...(filter.name ? { name: { contains: filter.name, mode: "insensitive" } } : {}),
    },
    orderBy: { id: "asc" },
    take: filter.most,
  });
}

export async function findPerson(tx: FirmTransaction, id: string) {
  return tx.person.findUnique({ where: { firmId_id: { firmId: tx.firmId, id } } });
}

/** The active owners' ids. Locked, so that two owners cannot demote each other at the same time. */
export async function lockActiveOwners(tx: FirmTransaction): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    SELECT id FROM person WHERE firm_id = ${tx.firmId}::uuid AND active AND 'owner' = ANY (roles)
    ORDER BY id FOR NO KEY UPDATE`;
  return rows.map(({ id }) => id);
}

export interface PersonChange {
  name?: string;
  roles?: Role[];
  active?: boolean;
}

/** Undefined when the row has another version by now. */
export async function editPerson(
  tx: FirmTransaction,
  id: string,
  version: number,
  change: PersonChange,
) {
  const [row] = await tx.person.updateManyAndReturn({
    where: { firmId: tx.firmId, id, version },
    data: { ...change, version: { increment: 1 } },
  });
  return row;
}

export async function setPasswordHash(
  tx: FirmTransaction,
  id: string,
  passwordHash: string,
  givenAt: Date | null = null,
): Promise<void> {
  await tx.person.updateMany({
    where: { firmId: tx.firmId, id },
    data: { passwordHash, passwordGivenAt: givenAt, version: { increment: 1 } },
  });
}

/** Ends the person's sessions on every other device. */
export async function revokeOtherSessions(
  tx: FirmTransaction,
  personId: string,
  keptSessionId: string,
): Promise<void> {
  await tx.session.updateMany({
    where: { firmId: tx.firmId, personId, revokedAt: null, id: { not: keptSessionId } },
    data: { revokedAt: new Date() },
  });
}

/** Active owners, to be told what only they can put right. */
export async function ownersOf(tx: FirmTransaction) {
  return tx.person.findMany({
    where: { firmId: tx.firmId, active: true, roles: { has: "owner" } },
    select: { id: true, email: true, language: true },
    orderBy: { id: "asc" },
    take: 20,
  });
}

export async function setLanguage(
  tx: FirmTransaction,
  id: string,
  language: string | null,
): Promise<void> {
  await tx.person.updateMany({ where: { firmId: tx.firmId, id }, data: { language } });
}

const SESSIONS_MOST = 100;

/** Where the person is signed in, the latest use first. */
export async function openSessions(tx: FirmTransaction, personId: string, now: Date) {
  return tx.session.findMany({
    where: { firmId: tx.firmId, personId, revokedAt: null, expiresAt: { gt: now } },
    select: { id: true, userAgent: true, createdAt: true, rotatedAt: true },
    orderBy: { rotatedAt: "desc" },
    take: SESSIONS_MOST,
  });
}

/** False when it is not the person's, or ended before. */
export async function revokeOwnSession(
  tx: FirmTransaction,
  personId: string,
  id: string,
): Promise<boolean> {
  const { count } = await tx.session.updateMany({
    where: { firmId: tx.firmId, personId, id, revokedAt: null },
    data: { revokedAt: new Date() },
  });
  return count === 1;
}
