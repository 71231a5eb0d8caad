// Requirement: the value of an answer against the acceptance limit of its item, kind by kind;
// whether the right instrument was used, in which order and with what evidence is judged elsewhere.

import type { CompiledItem } from "../plan/compile.ts";
import type { ItemOf } from "../plan/item.ts";
import type { AnswerValue } from "./answer.ts";
import { judgeNumber } from "./judge-number.ts";
import { judgePositions } from "./judge-positions.ts";
import { judgeSerial } from "./judge-serial.ts";
import { judgeText } from "./judge-text.ts";
import type { ValueFacts } from "./value-facts.ts";
import { type Finding, failing, passing } from "./verdict.ts";

/** The verdict on a readable value by its limit alone. */
export function judgeValue(compiled: CompiledItem, value: AnswerValue, facts: ValueFacts): Finding {
  const { item } = compiled;
  switch (value.kind) {
    case "confirm":
      if (value.done) return passing("Confirmed.");
      return failing("failed", "Marked as not done.", {
        toClear: item.toClear ?? "Do it and confirm.",
      });
    case "measure":
      return judgeNumber(compiled, value, (item as ItemOf<"measure">).unit, facts);
    case "tighten":
      return judgeTighten(compiled, value, facts);
    case "count": {
      const counted = { number: value.count, typed: `${value.count}` };
      return judgeNumber(compiled, counted, "", facts, "Counted");
    }
    case "choose":
      return judgeText(compiled, value.choice, `Chosen: ${value.choice}`, CHANGE_IT, facts);
    case "identify":
      return (item as ItemOf<"identify">).what === "serial"
        ? judgeSerial(compiled, value.text, facts)
        : judgeText(compiled, value.text, `Level read: ${value.text}`, READ_BACK, facts);
    case "set":
      return judgePositions(compiled, value.positions, facts);
    case "photo":
      return passing("Photographed.");
    case "sign":
      return passing("Signed.");
  }
}

const CHANGE_IT = "Change it to what is needed and answer again.";
const READ_BACK = "Bring the unit to the level needed and read it off again.";

function judgeTighten(
  compiled: CompiledItem,
  { points: done, setting }: Extract<AnswerValue, { kind: "tighten" }>,
  facts: ValueFacts,
): Finding {
  const { points, unit, toClear } = compiled.item as ItemOf<"tighten">;
  if (done.length === points) {
    return judgeNumber(compiled, setting, unit, facts, `${points} of ${points} tightened at`);
  }
  const tightened = new Set(done);
  const open = Array.from({ length: points }, (_, index) => index + 1).filter(
    (point) => !tightened.has(point),
  );
  const which = open.length > 6 ? `${open.slice(0, 6).join(", ")} and more` : open.join(", ");
  return failing(
    "fasteners-open",
    `${done.length} of ${points} fasteners tightened; not tightened: ${which}.`,
    { toClear: toClear ?? "Tighten every fastener of the group and tick each." },
  );
}
