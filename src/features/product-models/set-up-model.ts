import type { FirmTransaction } from "../../db/scope.ts";
import type { CheckScheme } from "../../domain/identifiers/check-schemes.ts";
import { serialRuleProblem } from "../../domain/identifiers/serial-rule.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import {
  addProductModel,
  editProductModel,
  findProductModel,
  hasFirmwareLevels,
  type ProductModelFields,
} from "./store.ts";

export async function setUpModel(tx: FirmTransaction, fields: ProductModelFields) {
  requireSerialRule(fields);
  const row = await addProductModel(tx, fields);
  if (row) return row;
  throw new Problem(
    "conflict",
    `There is a product model ${fields.code} already. Edit that, or use another code.`,
  );
}

export async function changeModel(
  tx: FirmTransaction,
  id: string,
  version: number,
  change: Partial<ProductModelFields>,
) {
  const before = await findProductModel(tx, id);
  if (!before) throw notFound("product model");
  requireSerialRule({ ...before, ...change });
  const { firmwareScheme = before.firmwareScheme } = change;
  // Stored levels carry keys in the old scheme's order; under another they would compare wrongly.
  if (firmwareScheme !== before.firmwareScheme && (await hasFirmwareLevels(tx, id))) {
    throw new Problem(
      "conflict",
      `Firmware levels of ${before.code} are kept in the order of ${before.firmwareScheme}. ` +
        "Set up another product model for the other scheme.",
    );
  }
  const row = await editProductModel(tx, id, version, change);
  if (!row) throw editedMeanwhile();
  return row;
}

function requireSerialRule(rule: { serialMask: string; serialCheck: string }): void {
  const problem = serialRuleProblem({
    mask: rule.serialMask,
    check: rule.serialCheck as CheckScheme,
  });
  if (problem !== undefined) throw invalid("/body/serialMask", problem);
}
