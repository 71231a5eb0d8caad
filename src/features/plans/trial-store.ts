import type { FirmTransaction } from "../../db/scope.ts";
import type { Accuracy, InstrumentFacts, UnitFacts } from "../../domain/plan/context.ts";

export type ModelFacts = Pick<UnitFacts, "kind" | "modelCode" | "attributes" | "serialRule">;

/** What trials read of product models, by id. */
export async function findModelFacts(
  tx: FirmTransaction,
  ids: readonly string[],
): Promise<Map<string, ModelFacts>> {
  const rows = await tx.productModel.findMany({
    where: { firmId: tx.firmId, id: { in: [...ids] } },
  });
  return new Map(
    rows.map((row) => [
      row.id,
      {
        kind: row.kind as UnitFacts["kind"],
        modelCode: row.code,
        attributes: row.attributes as UnitFacts["attributes"],
        serialRule: { mask: row.serialMask, check: row.serialCheck } as UnitFacts["serialRule"],
      } as ModelFacts,
    ]),
  );
}

/** What trials read of instruments, by id: accuracy and calibrations as on file. */
export async function findInstrumentFacts(
  tx: FirmTransaction,
  ids: readonly string[],
): Promise<Map<string, InstrumentFacts>> {
  const rows = await tx.instrument.findMany({
    where: { firmId: tx.firmId, id: { in: [...ids] } },
    include: { calibrations: { orderBy: [{ calibratedOn: "asc" }, { createdAt: "asc" }] } },
  });
  return new Map(
    rows.map((row) => {
      const rangeMax = row.rangeMax as { value: number; unit: string } | null;
      const resolution = row.resolution as InstrumentFacts["resolution"] | null;
      const facts: InstrumentFacts = {
        ...{ id: row.id, reference: row.reference, class: row.instrumentClass },
        calibrations: row.calibrations.map(({ calibratedOn, dueOn, passed }) => ({
          ...{ on: day(calibratedOn), due: day(dueOn), passed },
        })),
        ...(row.accuracy ? { accuracy: row.accuracy as Accuracy } : {}),
        ...(rangeMax ? { range: { max: rangeMax.value, unit: rangeMax.unit } } : {}),
        ...(resolution ? { resolution } : {}),
        ...(row.retiredOn ? { retiredOn: day(row.retiredOn) } : {}),
      };
      return [row.id, facts];
    }),
  );
}

const day = (date: Date): string => date.toISOString().slice(0, 10);
