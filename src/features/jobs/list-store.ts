import type { FirmTransaction } from "../../db/scope.ts";
import { jobsVisitedOn } from "../visits/store.ts";
import { PLAN_VERSION_PIN } from "./store.ts";

export interface JobFilter {
  state?: string;
  kind?: string;
  siteId?: string;
  customerId?: string;
  reference?: string;
  title?: string;
  day?: string;
  crewId?: string;
  after?: string;
  most: number;
}

/** Newest first. */
export async function listJobs(tx: FirmTransaction, filter: JobFilter, now: Date) {
  const { firmId } = tx;
  const { state, kind, siteId, customerId, reference, title, day, crewId, after } = filter;
  const visited = day ? await jobsVisitedOn(tx, day, crewId) : undefined;
  return tx.job.findMany({
    where: {
      firmId,
      ...(state ? { state } : {}),
      ...(kind ? { kind } : {}),
      ...(siteId ? { siteId } : {}),
      ...(customerId ? { site: { customerId } } : {}),
      ...(reference ? { reference: reference.toUpperCase() } : {}),
      ...(title ? { title: { contains: title, mode: "insensitive" } } : {}),
      ...(crewId && !day ? { visits: { some: { crewId, state: "booked" } } } : {}),
      AND: [visited ? { id: { in: visited } } : {}, after ? { id: { lt: after } } : {}],
    },
    include: {
      site: { include: { customer: true } },
      planVersion: PLAN_VERSION_PIN,
      visits: {
        where: { state: "booked", endsAt: { gt: now } },
        include: { crew: { select: { id: true, name: true } } },
        orderBy: [{ startsAt: "asc" }, { id: "asc" }],
        take: 1,
      },
      _count: { select: { units: true, snags: { where: { state: "open" } } } },
    },
    orderBy: { id: "desc" },
    take: filter.most,
  });
}

export type ListedJob = Awaited<ReturnType<typeof listJobs>>[number];
