import type { Prisma } from "../../db/generated/client.ts";
import type { FirmTransaction } from "../../db/scope.ts";

const SELECTED = {
  id: true,
  startsAt: true,
  endsAt: true,
  note: true,
  version: true,
  crew: { select: { id: true, name: true } },
  job: {
    select: {
      id: true,
      reference: true,
      kind: true,
      title: true,
      state: true,
      site: {
        select: {
          id: true,
          reference: true,
          name: true,
          addressLine: true,
          locality: true,
          latitude: true,
          longitude: true,
          timeZone: true,
          country: true,
          region: true,
        },
      },
    },
  },
  bookings: {
    select: {
      person: { select: { id: true, name: true } },
      instrument: {
        select: {
          id: true,
          reference: true,
          name: true,
          retiredOn: true,
          calibrations: {
            orderBy: [{ calibratedOn: "desc" }, { id: "desc" }],
            take: 1,
          },
        },
      },
    },
    orderBy: { id: "asc" },
  },
} as const satisfies Prisma.VisitSelect;

/** Booked visits with a moment between the two, at most so many, in the order of the diary. */
export async function visitsDuring(
  tx: FirmTransaction,
  { startsAt, endsAt }: { startsAt: Date; endsAt: Date },
  most: number,
) {
  return tx.visit.findMany({
    where: {
      ...{ firmId: tx.firmId, state: "booked" },
      ...{ startsAt: { lt: endsAt }, endsAt: { gt: startsAt } },
    },
    select: SELECTED,
    orderBy: [{ startsAt: "asc" }, { id: "asc" }],
    take: most,
  });
}

export type DiaryVisitRow = Awaited<ReturnType<typeof visitsDuring>>[number];

/** Active crews with their active people, in the order of their names. */
export async function activeCrews(tx: FirmTransaction) {
  const rows = await tx.crew.findMany({
    where: { firmId: tx.firmId, active: true },
    include: {
      members: {
        where: { person: { active: true } },
        include: { person: { select: { id: true, name: true } } },
        orderBy: { person: { name: "asc" } },
      },
    },
    orderBy: { name: "asc" },
  });
  return rows.map(({ id, name, members }) => ({
    ...{ id, name },
    people: members.map(({ person }) => person),
  }));
}

/** Active installers, in the order of their names. */
export async function activeInstallers(tx: FirmTransaction) {
  return tx.person.findMany({
    where: { firmId: tx.firmId, active: true, roles: { has: "installer" } },
    select: { id: true, name: true },
    orderBy: [{ name: "asc" }, { id: "asc" }],
  });
}
