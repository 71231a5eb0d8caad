import type { FirmTransaction } from "../../db/scope.ts";

export async function findInstrumentByReference(tx: FirmTransaction, reference: string) {
  return tx.instrument.findUnique({
    where: { firmId_reference: { firmId: tx.firmId, reference } },
  });
}

export async function isCalibrationKnown(
  tx: FirmTransaction,
  instrumentId: string,
  { calibratedOn, certificate }: { calibratedOn: string; certificate: string },
): Promise<boolean> {
  const where = { firmId: tx.firmId, instrumentId, certificate };
  const count = await tx.calibration.count({
    where: { ...where, calibratedOn: new Date(calibratedOn) },
  });
  return count > 0;
}
