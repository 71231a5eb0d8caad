import type { FirmTransaction } from "../../db/scope.ts";
import type { MergeKind } from "./store.ts";

/** Fields that the surviving record takes over where its own are empty. */
const FILLED = {
  customer: ["email", "phone", "address", "note", "language"],
  site: ["name"],
} as const satisfies Record<MergeKind, readonly string[]>;

type Row = Readonly<Record<string, unknown>>;

/** What the one has to give that the other lacks. */
export function fillable(kind: MergeKind, from: object, into: object): Record<string, string> {
  const fields: readonly string[] = FILLED[kind];
  return Object.fromEntries(
    fields.flatMap((field) => {
      const [given, has] = [(from as Row)[field], (into as Row)[field]];
      return typeof given === "string" && given !== "" && (has === null || has === "")
        ? [[field, given]]
        : [];
    }),
  );
}

export interface RecordChange {
  archivedAt?: Date | null;
  mergedIntoId?: string | null;
  [field: string]: string | Date | null | undefined;
}

/** Changes one of the two records; answers with the version it has since. */
export async function changeRecord(
  tx: FirmTransaction,
  kind: MergeKind,
  id: string,
  change: RecordChange,
): Promise<number> {
  const where = { firmId_id: { firmId: tx.firmId, id } };
  const data = { ...change, version: { increment: 1 } };
  const select = { version: true };
  const row =
    kind === "customer"
      ? await tx.customer.update({ where, data, select })
      : await tx.site.update({ where, data, select });
  return row.version;
}

/** Names of banks that both sites have: a site cannot have two banks of one name. */
export async function commonBankNames(
  tx: FirmTransaction,
  fromId: string,
  intoId: string,
): Promise<string[]> {
  const rows = await tx.$queryRaw<{ name: string }[]>`
    SELECT a.name FROM bank a JOIN bank b ON b.firm_id = a.firm_id AND b.name = a.name
    WHERE a.firm_id = ${tx.firmId}::uuid AND a.site_id = ${fromId}::uuid
      AND b.site_id = ${intoId}::uuid ORDER BY a.name LIMIT 20`;
  return rows.map(({ name }) => name);
}

export async function hasSurvey(tx: FirmTransaction, siteId: string): Promise<boolean> {
  return (await tx.survey.count({ where: { firmId: tx.firmId, siteId } })) > 0;
}
