import { uuidv7 } from "uuidv7";
import { Prisma } from "../../db/generated/client.ts";
import type { FirmTransaction } from "../../db/scope.ts";
import type { InstrumentUse } from "../../domain/plan/context.ts";

export interface InstrumentFields {
  reference: string;
  name: string;
  instrumentClass: string;
  serial: string;
  accuracy?: Partial<Record<string, number>> | null;
  rangeMax?: { value: number; unit: string } | null;
  resolution?: { step: number; unit: string } | null;
  torqueTool?: { type: string; class: string } | null;
  intervalMonths: number;
  intervalCycles?: number | null;
}

export interface InstrumentFilter {
  instrumentClass?: string;
  dueBefore?: string;
  /** These only. */
  ids?: string[];
  retired: boolean;
  after?: string;
  most: number;
}

/** Of two on one day or at one moment the later entry counts. */
const WITH_HISTORY = {
  calibrations: {
    orderBy: [{ calibratedOn: "desc" }, { createdAt: "desc" }, { id: "desc" }],
    take: 200,
  },
  events: {
    where: { kind: { in: ["overload", "dropped", "recheck-passed", "recheck-failed"] } },
    orderBy: [{ at: "desc" }, { id: "desc" }],
    take: 200,
  },
} satisfies Prisma.InstrumentInclude;

export async function listInstruments(tx: FirmTransaction, filter: InstrumentFilter) {
  const due = filter.dueBefore === undefined ? undefined : await idsDueBefore(tx, filter.dueBefore);
  const rows = await tx.instrument.findMany({
    where: {
      firmId: tx.firmId,
      retiredOn: filter.retired ? { not: null } : null,
      id: { ...(filter.after ? { gt: filter.after } : {}), ...(due ? { in: due } : {}) },
      ...(filter.ids ? { AND: { id: { in: filter.ids } } } : {}),
      ...(filter.instrumentClass ? { instrumentClass: filter.instrumentClass } : {}),
    },
    include: WITH_HISTORY,
    orderBy: { id: "asc" },
    take: filter.most,
  });
  const uses = await usesOf(
    tx,
    rows.map(({ id }) => id),
  );
  return rows.map((row) => ({ ...row, uses: uses.get(row.id) }));
}

/** Of the torque tools among them. */
async function usesOf(
  tx: FirmTransaction,
  ids: string[],
): Promise<ReadonlyMap<string, InstrumentUse[]>> {
  const rows = await tx.$queryRaw<{ id: string; uses: InstrumentUse[] }[]>`
    SELECT id, instrument_uses(firm_id, id, NULL) AS uses FROM instrument
    WHERE firm_id = ${tx.firmId}::uuid AND id = ANY(${ids}::uuid[])
      AND instrument_class IN ('torque-wrench', 'torque-screwdriver')`;
  return new Map(rows.map(({ id, uses }) => [id, uses]));
}

/** Prisma cannot ask of the last calibration alone, and an earlier one says nothing. */
async function idsDueBefore(tx: FirmTransaction, day: string): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    SELECT i.id FROM instrument i LEFT JOIN LATERAL (
      SELECT c.due_on, c.passed FROM calibration c
      WHERE c.firm_id = i.firm_id AND c.instrument_id = i.id
      ORDER BY c.calibrated_on DESC, c.created_at DESC, c.id DESC LIMIT 1
    ) last ON true
    WHERE i.firm_id = ${tx.firmId}::uuid
      AND (last.passed IS NOT TRUE OR last.due_on < ${day}::date)`;
  return rows.map(({ id }) => id);
}

/** Its history newest first; uses of torque tools only. */
export async function findInstrument(tx: FirmTransaction, id: string) {
  const row = await tx.instrument.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id } },
    include: WITH_HISTORY,
  });
  return row && { ...row, uses: (await usesOf(tx, [id])).get(id) };
}

export type InstrumentRow = NonNullable<Awaited<ReturnType<typeof findInstrument>>>;

export async function hasInstrument(tx: FirmTransaction, id: string): Promise<boolean> {
  return (await tx.instrument.count({ where: { firmId: tx.firmId, id } })) === 1;
}

/** Undefined when another instrument has this reference. */
export async function addInstrument(
  tx: FirmTransaction,
  fields: InstrumentFields,
): Promise<string | undefined> {
  const [row] = await tx.instrument.createManyAndReturn({
    data: [{ firmId: tx.firmId, id: uuidv7(), ...fields, ...documentsOf(fields) }],
    skipDuplicates: true,
  });
  return row?.id;
}

export async function isReferenceTaken(
  tx: FirmTransaction,
  reference: string,
  exceptId: string,
): Promise<boolean> {
  const row = await tx.instrument.findFirst({
    where: { firmId: tx.firmId, reference, id: { not: exceptId } },
    select: { id: true },
  });
  return row !== null;
}

/** False when the row has another version by now. */
export async function editInstrument(
  tx: FirmTransaction,
  id: string,
  version: number,
  change: Partial<InstrumentFields> & { retiredOn?: Date | null },
): Promise<boolean> {
  const { count } = await tx.instrument.updateMany({
    where: { firmId: tx.firmId, id, version },
    data: { ...change, ...documentsOf(change), version: { increment: 1 } },
  });
  return count === 1;
}

/** In a JSON column, null must say which null it is. */
function documentsOf(fields: Partial<InstrumentFields>) {
  const document = <Value extends object>(value: Value | null | undefined) =>
    value === null ? Prisma.DbNull : value;
  return {
    accuracy: document(fields.accuracy),
    rangeMax: document(fields.rangeMax),
    resolution: document(fields.resolution),
    torqueTool: document(fields.torqueTool),
  };
}

export interface NewCalibrationRow {
  instrumentId: string;
  calibratedOn: Date;
  dueOn: Date;
  passed: boolean;
  certificate: string;
}

export async function addCalibration(tx: FirmTransaction, row: NewCalibrationRow) {
  return tx.calibration.create({ data: { firmId: tx.firmId, id: uuidv7(), ...row } });
}
