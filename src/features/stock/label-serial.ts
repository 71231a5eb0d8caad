// A scanner types what the label says: a plain serial, or a GS1 element string or Digital Link with
// the serial inside it.
import { serialsOnLabel } from "../../domain/identifiers/serials-on-label.ts";

export type LabelSerial = { ok: true; serial: string } | { ok: false; problem: string };

/** Typed serials go on as they are: the model's rule says what is wrong with them. */
export function labelSerial(typed: string): LabelSerial {
  const { serials, problems } = serialsOnLabel(typed);
  const [first, ...others] = serials;
  if (first && others.length === 0) return { ok: true, serial: first.serial };
  if (others.length > 0) {
    const found = serials.map(({ serial }) => serial).join(", ");
    return {
      ok: false,
      problem: `This label holds several serials: ${found}. Take one at a time.`,
    };
  }
  if (problems.length === 0 || !/^https?:|^\]|^\(/.test(typed)) return { ok: true, serial: typed };
  return { ok: false, problem: problems[0]?.problem ?? "holds no serial" };
}
