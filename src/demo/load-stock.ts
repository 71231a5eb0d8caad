// The depot: where what came in lies, one pack that arrived damaged, and consumables by count.
import { type FirmTransaction, inFirm } from "../db/scope.ts";
import { UNPACK_CHECKS } from "../domain/kit/unpack-checks.ts";
import { moveConsumable } from "../features/stock/move-consumable.ts";
import { putInPlace } from "../features/stock/quarantine.ts";
import type { NewGoodsIn } from "../features/stock/schemas.ts";
import { takeGoodsIn } from "../features/stock/take-goods-in.ts";
import { takeUpConsumable } from "../features/stock/take-up-consumable.ts";
import { moment } from "./calendar.ts";
import { type Catalogue, type Firm, type Fleet, find, personOf } from "./scene.ts";
import { serialFor } from "./serials.ts";
import { CONSUMABLES, RACK, SHELF } from "./tables/kit.ts";
import { FIRM } from "./tables/people.ts";
import { PALLETS } from "./tables/stock.ts";

const GOOD = Object.fromEntries(
  UNPACK_CHECKS.map((check) => [check, "good"]),
) as NewGoodsIn["checks"];
const HEATH_VAN = "Van of the Heath crew";

export async function loadStock(firm: Firm, catalogue: Catalogue, fleet: Fleet): Promise<void> {
  await inFirm(firm.db, firm.firmId, async (tx) => {
    for (const pallet of Object.keys(PALLETS)) {
      for (const { id } of find(fleet, pallet)) await putInPlace(tx, id, RACK);
    }
    await takeSingles(tx, firm, catalogue);
    for (const consumable of CONSUMABLES) await loadConsumable(tx, firm, consumable);
  });
}

const daysAgo = (firm: Firm, days: number): Date =>
  moment(firm.today.subtract({ days }), "11:40", FIRM.timeZone);

/** One sound inverter with its papers, and a pack whose corner was crushed on the way. */
async function takeSingles(tx: FirmTransaction, firm: Firm, catalogue: Catalogue): Promise<void> {
  const personId = personOf(firm, "ines").id;
  const inverter = find(catalogue.models, "MILLRACE-H5");
  const pack = find(catalogue.models, "BRACKEN-W5");
  const deliveryNote = "DN-55021";
  await takeGoodsIn(
    tx,
    {
      ...{ modelId: inverter.id, serial: serialFor(inverter, 41_907), checks: GOOD },
      ...{ hardwareRevision: inverter.hardwareRevision, place: RACK, deliveryNote },
    },
    personId,
    daysAgo(firm, 4),
  );
  await takeGoodsIn(
    tx,
    {
      ...{ modelId: pack.id, serial: serialFor(pack, 41_911), place: "Yard, quarantine cage" },
      ...{ hardwareRevision: pack.hardwareRevision, deliveryNote },
      checks: { ...GOOD, packaging: "bad", "tilt-marker": "bad", casing: "bad" },
      note: "Lower left corner crushed, tilt marker red. The maker is told.",
    },
    personId,
    daysAgo(firm, 4),
  );
}

async function loadConsumable(
  tx: FirmTransaction,
  firm: Firm,
  { received, counted, onVan, ...fields }: (typeof CONSUMABLES)[number],
): Promise<void> {
  const { id } = await takeUpConsumable(tx, fields);
  const office = personOf(firm, "ines").id;
  const came = { kind: "received", amount: received, place: SHELF } as const;
  await moveConsumable(tx, id, { ...came, deliveryNote: "DN-54870" }, office, daysAgo(firm, 40));
  if (counted !== undefined) {
    const count = { kind: "counted", amount: counted, place: SHELF } as const;
    await moveConsumable(tx, id, count, office, daysAgo(firm, 9));
  }
  if (onVan !== undefined) {
    const move = { kind: "moved", amount: onVan, place: SHELF, toPlace: HEATH_VAN } as const;
    await moveConsumable(tx, id, move, personOf(firm, "dev").id, daysAgo(firm, 6));
  }
}
