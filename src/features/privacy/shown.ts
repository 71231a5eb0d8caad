import type { findErasure } from "./store.ts";

type Row = NonNullable<Awaited<ReturnType<typeof findErasure>>>;

export function shownErasure({ id, customerId, reason, counts, ...row }: Row) {
  const { customers, sites, jobs, mails } = counts as Record<string, number>;
  return {
    ...{ id, customerId, customer: row.customer.reference, reason },
    ...{ customers: customers ?? 0, sites: sites ?? 0, jobs: jobs ?? 0, mails: mails ?? 0 },
    ...{ erasedBy: row.person.name, erasedAt: row.erasedAt.toISOString() },
  };
}
