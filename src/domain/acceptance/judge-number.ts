// Requirement: a number against its limit under the decision rule, told in one sentence with the
// unit.
import type { CompiledItem } from "../plan/compile.ts";
import type { Measured } from "./answer.ts";
import type { Decision } from "./decision.ts";
import { withUnit } from "./interval.ts";
import { type NumberTest, numberTest } from "./number-test.ts";
import { expandedUncertainty } from "./uncertainty.ts";
import type { ValueFacts } from "./value-facts.ts";
import { type Finding, failing, notComputable, passing } from "./verdict.ts";

const USUAL_CLEAR = "Put right what causes it and measure again.";

/** The verdict on a number in the item's unit, under the plan's decision rule. */
export function judgeNumber(
  compiled: CompiledItem,
  measured: Measured,
  unit: string,
  facts: ValueFacts,
  verb = "Read",
): Finding {
  const { limit, item } = compiled;
  const read = `${verb} ${shown(measured, unit)}`;
  if (!limit || limit.kind === "one-of") throw new Error(`${item.id} has no limit for a number`);
  const worked = numberTest(limit, unit, facts.names);
  if (!worked.ok) return notComputable(`${read}.`, worked.problem);
  const { test } = worked;
  const uncertainty =
    unit === "" ? 0 : expandedUncertainty(facts.instrument, measured.number, unit);
  const decided = test.decide(facts.rule, measured, uncertainty ?? 0);
  if (!decided.ok) return notComputable(`${read}.`, decided.problem);
  const wording = { read, needed: test.needed, within: within(uncertainty, unit) };
  const told =
    uncertainty === undefined && facts.rule !== "simple" && decided.decision !== "fail"
      ? uncertaintyUnknown(wording)
      : tell(decided.decision, measured, wording);
  return withFigures(told, { test, measured, unit, uncertainty, toClear: item.toClear });
}

interface Wording {
  read: string;
  needed: string;
  /** " ± 0.5 V", or empty. */
  within: string;
}

function tell(decision: Decision, { qualifier }: Measured, wording: Wording): Finding {
  const { read, needed, within } = wording;
  switch (decision) {
    case "pass":
      return passing(`${read}; needed ${needed}.`);
    case "fail":
      if (!qualifier) return failing("failed", `${read}; needed ${needed}.`);
      return failing(
        qualifier === ">" ? "over-range" : "under-range",
        `${read}, which does not show that it is ${needed}.`,
      );
    case "guard-band":
      return marginal(false, decision, `${read}${within}; too near the limit: needed ${needed}.`);
    case "conditional-pass":
      return marginal(true, decision, `${read}${within}; met, near the limit: needed ${needed}.`);
    case "conditional-fail":
      return marginal(
        false,
        decision,
        `${read}${within}; not met, near the limit: needed ${needed}.`,
      );
  }
}

const marginal = (clears: boolean, code: string, sentence: string): Finding => ({
  outcome: "marginal",
  clears,
  code,
  sentence,
});

const uncertaintyUnknown = ({ read, needed }: Wording): Finding => ({
  ...marginal(
    false,
    "uncertainty-unknown",
    `${read}; needed ${needed}. This plan counts the instrument's accuracy, which is not known.`,
  ),
  toClear: "Enter the instrument's accuracy, or read with one whose accuracy is known.",
});

interface Figures {
  test: NumberTest;
  measured: Measured;
  unit: string;
  uncertainty: number | undefined;
  toClear: string | undefined;
}

/** Adds the figures to a finding that is nobody else's yet. */
function withFigures(finding: Finding, figures: Figures): Finding {
  const { test, measured, unit, uncertainty } = figures;
  const reading: Finding["reading"] = { number: measured.number, unit };
  if (uncertainty !== undefined && unit !== "") reading.uncertainty = uncertainty;
  finding.reading = reading;
  finding.needed = test.needed;
  if (uncertainty && !measured.qualifier) {
    const risk = test.risk(measured.number, uncertainty);
    if (risk !== undefined) finding.risk = risk;
  }
  if (!finding.clears) finding.toClear ??= figures.toClear ?? USUAL_CLEAR;
  return finding;
}

const within = (uncertainty: number | undefined, unit: string): string =>
  uncertainty ? ` ± ${withUnit(Number(uncertainty.toPrecision(2)), unit)}` : "";

const CONVERTED_DIGITS = 6;

/** "36.9 V", or "2500 mΩ (2.5 Ω)" where it was typed in another unit. */
function shown(measured: Measured, unit: string): string {
  const own = withUnit(measured.number, unit);
  if (unit === "" || measured.typed.endsWith(` ${unit}`)) {
    return measured.qualifier ? `${measured.qualifier}${own}` : own;
  }
  const converted = withUnit(Number(measured.number.toPrecision(CONVERTED_DIGITS)), unit);
  return `${measured.typed} (${converted})`;
}
