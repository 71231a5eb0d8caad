// Requirement: the verdict on one answer depends on it and on what was answered before it, and on
// nothing later: value, order, instrument and evidence. What comes afterwards (photos arriving,
// concessions) is laid over it elsewhere.
import type { CompiledItem } from "../plan/compile.ts";
import type { InstrumentFacts } from "../plan/context.ts";
import type { DecisionRule } from "../plan/item.ts";
import type { Subject } from "../plan/subjects.ts";
import { type Answer, parseAnswerValue } from "./answer.ts";
import { evidenceFinding } from "./evidence.ts";
import { instrumentFinding } from "./instrument-finding.ts";
import { judgeValue } from "./judge-value.ts";
import { obstacleFinding } from "./obstacle.ts";
import { Sequence } from "./sequence.ts";
import type { Surroundings } from "./surroundings.ts";
import { type Finding, failing, laidOver } from "./verdict.ts";

/** Judges single answers of one job, each once. */
export class AnswerJudge {
  readonly sequence: Sequence;
  readonly #around: Surroundings;
  readonly #instruments: ReadonlyMap<string, InstrumentFacts>;
  readonly #findings = new Map<Answer, Finding>();

  constructor(around: Surroundings) {
    this.#around = around;
    this.#instruments = new Map(around.context.instruments.map((entry) => [entry.id, entry]));
    this.sequence = new Sequence(
      around,
      (compiled, subject, answer) => this.finding(compiled, subject, answer),
      (compiled, subject, answer) =>
        this.#ofValue(compiled, subject, answer, this.#instrument(answer)),
    );
  }

  finding(compiled: CompiledItem, subject: Subject, answer: Answer): Finding {
    const known = this.#findings.get(answer);
    if (known) return known;
    const finding = this.#judge(compiled, subject, answer);
    this.#findings.set(answer, finding);
    return finding;
  }

  #judge(compiled: CompiledItem, subject: Subject, answer: Answer): Finding {
    const { item } = compiled;
    const instrument = this.#instrument(answer);
    const finding = this.#ofValue(compiled, subject, answer, instrument);
    if (finding.code === "unreadable") return finding;
    const early = this.#early(compiled, subject, answer);
    if (early && item.sequence !== "mark") return laidOver(finding, early);
    if (!finding.clears && finding.code !== "uncertainty-unknown") return finding;
    const { timeZone } = this.#around.context.site;
    const rule = this.#rule(compiled);
    const problem =
      instrumentFinding(item, answer, instrument, { rule, timeZone }) ??
      (finding.clears ? evidenceFinding(item, answer) : undefined);
    if (problem) return item.kind === "photo" ? problem : laidOver(finding, problem);
    if (!early || !finding.clears) return finding;
    return { ...laidOver(finding, early), clears: true };
  }

  /** The reading against its limit, whenever and with whatever it was taken. */
  #ofValue(
    compiled: CompiledItem,
    subject: Subject,
    answer: Answer,
    instrument: InstrumentFacts | undefined,
  ): Finding {
    const parsed = parseAnswerValue(compiled.item, answer.value);
    if (!parsed.ok) {
      return failing("unreadable", parsed.problem, { toClear: "Answer again." });
    }
    const { context, read } = this.#around;
    return judgeValue(compiled, parsed.value, {
      rule: this.#rule(compiled),
      instrument,
      unit: subject.unit,
      units: context.units,
      names: () => read.limitNames(compiled, subject, answer),
    });
  }

  /** Told when it was not done in its place in the sequence. */
  #early(compiled: CompiledItem, subject: Subject, answer: Answer): Finding | undefined {
    if (compiled.needs.length === 0 && !compiled.sequence) return undefined;
    const obstacle = this.sequence.first(compiled, subject, answer);
    return obstacle && obstacleFinding(obstacle, this.#around.context.site.timeZone);
  }

  #instrument({ instrumentId }: Answer): InstrumentFacts | undefined {
    return instrumentId === undefined ? undefined : this.#instruments.get(instrumentId);
  }

  #rule({ item }: CompiledItem): DecisionRule {
    const own = "decisionRule" in item ? item.decisionRule : undefined;
    return own ?? this.#around.plan.plan.decisionRule;
  }
}
