// The claim that the exchange of a pack answered. Its words and references are invented.
import type { FirmTransaction } from "../db/scope.ts";
import { findUnit } from "../features/units/store.ts";
import { openClaim, stepClaim } from "../features/warranty/keep-claim.ts";
import type { By } from "../features/warranty/keep-warranty.ts";
import type { Fleet } from "./scene.ts";

export async function loadSettledClaim(tx: FirmTransaction, fleet: Fleet, by: By): Promise<void> {
  const [spare] = fleet.get("spares") ?? [];
  const fresh = spare && (await findUnit(tx, spare.id));
  if (!fresh?.replacesUnitId) throw new Error("the scenario has no pack that was exchanged");
  const fault = "One cell stays 90 mV behind the others after a full charge.";
  const claim = await openClaim(tx, { unitId: fresh.replacesUnitId, fault }, by);
  const moves = [
    { state: "sent", makerReference: "RMA-20714" },
    { state: "accepted", note: "A pack in exchange; the old one goes back within 30 days." },
    { state: "settled", replacementUnitId: fresh.id },
  ] as const;
  let { version } = claim;
  for (const move of moves) ({ version } = await stepClaim(tx, claim.id, version, move, by));
}
