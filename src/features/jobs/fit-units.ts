import type { FirmTransaction } from "../../db/scope.ts";
import type { Plan } from "../../domain/plan/schema.ts";
import { type FieldError, Problem } from "../../errors.ts";
import { requireNoQuarantine } from "../units/install-unit.ts";
import { missingAttributes } from "./attributes.ts";
import { type CandidateUnit, findUnits } from "./units-store.ts";

/**
 * The units in the order of `ids`, if each can be worked on at the site under the plan.
 * @param pointerOf pointer of the field that names the unit at this place
 */
export async function fitUnits(
  tx: FirmTransaction,
  ids: string[],
  job: { siteId: string; plan: Plan },
  pointerOf: (index: number) => string,
): Promise<CandidateUnit[]> {
  const found = await findUnits(tx, ids);
  const errors: FieldError[] = [];
  const units = ids.flatMap((id, index) => {
    const unit = found.find((one) => one.id === id);
    if (!unit) {
      errors.push({
        pointer: pointerOf(index),
        detail: "There is no such unit in your firm.",
      });
      return [];
    }
    errors.push(...attributeErrors(unit, job.plan, pointerOf(index)));
    return [unit];
  });
  if (errors[0]) throw new Problem("invalid-input", errors[0].detail, { errors });
  for (const unit of units) refuseElsewhere(unit, job.siteId);
  return units;
}

function attributeErrors(unit: CandidateUnit, plan: Plan, pointer: string): FieldError[] {
  return missingAttributes(plan, unit.model).map(({ name, type }) => ({
    pointer,
    detail:
      `The plan reads ${name} (${type}) of ${unit.serial}, and its product model ` +
      `${unit.model.code} does not have it. Add it to the product model first.`,
  }));
}

function refuseElsewhere(unit: CandidateUnit, siteId: string): void {
  const { id, serial, state, site } = unit;
  requireNoQuarantine(unit);
  if (state === "swapped") {
    throw new Problem(
      "conflict",
      `${serial} was swapped out. If it is repaired, record its goods-in again first.`,
      { unitId: id },
    );
  }
  if (state !== "installed" || !site || site.id === siteId) return;
  throw new Problem(
    "serial-live-elsewhere",
    `${serial} is live at ${site.reference}. Check the label; if the unit really moved, record ` +
      `its removal from ${site.reference} first.`,
    { unitId: id, site },
  );
}
