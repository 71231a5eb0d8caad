// Requirement: the serial read off a unit is that of the unit on the job, and has its model's form.
import { checkSerial, normaliseSerial } from "../identifiers/check-serial.ts";
import type { CompiledItem } from "../plan/compile.ts";
import { judgeText } from "./judge-text.ts";
import type { ValueFacts } from "./value-facts.ts";
import { type Finding, failing, passing } from "./verdict.ts";

const READ_AGAIN = "Read the label again; if another unit was delivered, put that one on the job.";

/**
 * The verdict on a serial number, for one unit or, where the item is asked once, for any of the
 * job.
 */
export function judgeSerial(compiled: CompiledItem, text: string, facts: ValueFacts): Finding {
  const typed = normaliseSerial(text);
  const candidates = facts.unit ? [facts.unit] : facts.units;
  const unit = candidates.find(({ serial }) => normaliseSerial(serial) === typed);
  const rule = (unit ?? facts.unit)?.serialRule;
  const form = rule ? checkSerial(rule, typed) : undefined;
  if (!unit) {
    const expected = facts.unit ? facts.unit.serial : "no unit of that number";
    const sentence = `Read ${typed}; the job has ${expected}.`;
    return failing(
      "serial-mismatch",
      form?.ok === false ? `${sentence} ${form.problem}` : sentence,
      {
        toClear: compiled.item.toClear ?? READ_AGAIN,
      },
    );
  }
  if (form?.ok === false) {
    return failing("serial-malformed", `Read ${typed}. ${form.problem}`, {
      toClear: "Read the label again, and compare the model's rule for serial numbers.",
    });
  }
  if (!compiled.limit) return passing(`Serial number ${typed} is the one on the job.`);
  return judgeText(compiled, typed, `Serial number ${typed} is on the job`, READ_AGAIN, facts);
}
