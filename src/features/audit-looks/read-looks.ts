import type { FirmTransaction } from "../../db/scope.ts";
import { type LookFilter, listAuditLooks, namesOf } from "./store.ts";

/** Looks with the names of who looked and what at. */
export async function readLooks(tx: FirmTransaction, filter: LookFilter) {
  const rows = await listAuditLooks(tx, filter);
  const names = await namesOf(
    tx,
    rows.flatMap(({ subjectId }) => subjectId ?? []),
  );
  return rows.map(({ id, personId, person, path, operation, subjectId, at }) => ({
    ...{ id, personId, personName: person.name, path, operation, subjectId },
    subjectName: (subjectId && names.get(subjectId)) ?? null,
    at: at.toISOString(),
  }));
}
