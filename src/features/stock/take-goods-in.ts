// Goods-in with a look into the box: the serial by the model's rule, the condition by what was
// seen, the place where it lies. What may hold a damaged cell goes into quarantine at once.
import type { FirmTransaction } from "../../db/scope.ts";
import { conditionFrom, DAMAGED_CAUTION } from "../../domain/kit/unpack-checks.ts";
import { type FieldError, Problem } from "../../errors.ts";
import { requireUnit } from "../units/move.ts";
import { addUnitEvent } from "../units/move-store.ts";
import { receiveUnit } from "../units/receive-unit.ts";
import type { NewGoodsIn } from "./schemas.ts";
import { addGoodsIn, setStock } from "./store.ts";

export async function takeGoodsIn(
  tx: FirmTransaction,
  { checks, place, deliveryNote, note, ...unitFields }: NewGoodsIn,
  personId: string,
  at: Date,
) {
  const { unit, isNew } = await receiveUnit(tx, { ...unitFields, personId, at });
  const condition = requireCondition(unit.kind, checks);
  const isDamaged = condition === "damaged";
  const unitId = unit.id;
  await setStock(tx, unitId, { stockPlace: place, quarantinedAt: isDamaged ? at : null });
  const row = { unitId, condition, checks, place, personId };
  const texts = { deliveryNote: deliveryNote ?? null, note: note ?? null };
  const id = await addGoodsIn(tx, { ...row, ...texts }, at);
  if (isDamaged) {
    const why = note ?? "Damaged at goods-in";
    await addUnitEvent(tx, { unitId, kind: "quarantined", personId, at, note: why });
  }
  return {
    id,
    isNew,
    unit: await requireUnit(tx, unitId),
    condition,
    place,
    deliveryNote: deliveryNote ?? null,
    caution: isDamaged ? DAMAGED_CAUTION : null,
  };
}

function requireCondition(kind: string, checks: NewGoodsIn["checks"]) {
  const judged = conditionFrom(kind, checks);
  if (judged.ok) return judged.condition;
  const errors = judged.toLookAt.map(
    (check): FieldError => ({
      pointer: `/body/checks/${check}`,
      detail: "is to be looked at before the unit counts as stock",
    }),
  );
  throw new Problem(
    "invalid-input",
    `Look at the unit itself first: ${judged.toLookAt.join(", ")}. Leave it in its box until then.`,
    { errors },
  );
}
