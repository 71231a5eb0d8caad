// What was read off the passports of two packs: one whose code names its serial number, one with
// the code of the model alone. GTINs begin with 952, which GS1 keeps for examples; the values are
// invented.
import type { FirmTransaction } from "../db/scope.ts";
import { keepPassport } from "../features/passports/keep-passport.ts";
import type { By } from "../features/warranty/keep-warranty.ts";

const GTIN = "https://id.gs1.org/01/09520123456788";

export async function loadPassports(
  tx: FirmTransaction,
  packs: readonly { unitId: string; serial: string; commissionedOn: string | null }[],
  by: By,
): Promise<void> {
  const [whole, plain] = packs;
  if (whole?.commissionedOn) {
    const readOn = whole.commissionedOn;
    const values = [
      { field: "chemistry", value: "LFP", readOn },
      { field: "ratedCapacity", value: 100, readOn },
      { field: "ratedEnergy", value: 5.12, readOn },
      { field: "carbonFootprint", value: 61, readOn },
      { field: "expectedCycles", value: 6000, readOn },
      { field: "stateOfHealth", value: 100, readOn },
    ] as const;
    await keepPassport(
      tx,
      whole.unitId,
      0,
      { uri: `${GTIN}/21/${whole.serial}`, values: [...values] },
      by,
    );
  }
  if (plain) await keepPassport(tx, plain.unitId, 0, { uri: GTIN, values: [] }, by);
}
