import type { FirmTransaction } from "../../db/scope.ts";

const MODELS_MOST = 10_000;

/** What is needed of every product model to read serials and levels. */
export async function readFirmModels(tx: FirmTransaction) {
  return tx.productModel.findMany({
    where: { firmId: tx.firmId },
    select: { id: true, code: true, serialMask: true, serialCheck: true, firmwareScheme: true },
    take: MODELS_MOST,
  });
}
