import type { FirmTransaction } from "../../db/scope.ts";
import { compareLevels, type FirmwareScheme, parseLevel } from "../../domain/firmware/levels.ts";
import { type FieldError, Problem } from "../../errors.ts";
import { modelSchemes } from "./model-schemes-store.ts";

interface Reach {
  fromMin?: string | null | undefined;
  fromBelow?: string | null | undefined;
  companions?: readonly { modelId: string; min?: string; below?: string }[] | undefined;
}

/** Every level that a release names can be read, and some level below it leads to it. */
export async function requireReach(
  tx: FirmTransaction,
  model: { firmwareScheme: string },
  level: string,
  { fromMin, fromBelow, companions = [] }: Reach,
): Promise<void> {
  const scheme = model.firmwareScheme as FirmwareScheme;
  const errors = [
    ...readable(scheme, fromMin, "/body/fromMin"),
    ...readable(scheme, fromBelow, "/body/fromBelow"),
  ];
  if (errors.length === 0) errors.push(...stepsOver(scheme, level, { fromMin, fromBelow }));
  const schemes = await modelSchemes(
    tx,
    companions.map(({ modelId }) => modelId),
  );
  for (const [index, { modelId, min, below }] of companions.entries()) {
    const pointer = `/body/companions/${index}`;
    const other = schemes.get(modelId);
    if (other === undefined) {
      const detail = "There is no such product model in your firm.";
      errors.push({ pointer: `${pointer}/modelId`, detail });
      continue;
    }
    errors.push(...readable(other, min, `${pointer}/min`));
    errors.push(...readable(other, below, `${pointer}/below`));
    if (min === undefined && below === undefined) {
      errors.push({ pointer, detail: "Say from which level on, or below which." });
    }
  }
  if (errors[0]) throw new Problem("invalid-input", errors[0].detail, { errors });
}

function readable(
  scheme: FirmwareScheme,
  level: string | null | undefined,
  pointer: string,
): FieldError[] {
  if (level === undefined || level === null) return [];
  const parsed = parseLevel(scheme, level);
  return parsed.ok ? [] : [{ pointer, detail: parsed.problem }];
}

/** A release that nothing below it may step from could never be installed. */
function stepsOver(scheme: FirmwareScheme, level: string, { fromMin, fromBelow }: Reach) {
  const errors: FieldError[] = [];
  const isAtLeast = (one: string, other: string): boolean => {
    const compared = compareLevels(scheme, one, other);
    return compared.ok && compared.order >= 0;
  };
  if (fromMin && isAtLeast(fromMin, level)) {
    const detail = `It steps from ${fromMin} or later, which is not below ${level} itself.`;
    errors.push({ pointer: "/body/fromMin", detail });
  }
  if (fromMin && fromBelow && isAtLeast(fromMin, fromBelow)) {
    const detail = `No level is ${fromMin} or later and below ${fromBelow}.`;
    errors.push({ pointer: "/body/fromBelow", detail });
  }
  return errors;
}
