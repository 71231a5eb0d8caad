// Requirement: the verdict on one answer depends on it and on what was answered before it, and on
// nothing later: value, order, instrument and evidence. What comes afterwards (photos arriving,
// concessions) is laid over it elsewhere.
import type { CompiledItem, CompiledPlan } from "../plan/compile.ts";
import type { InstrumentFacts, JobContext } from "../plan/context.ts";
import type { DecisionRule } from "../plan/item.ts";
import { type Subject, sameSubjects, subjectsOf } from "../plan/subjects.ts";
import { type Answer, parseAnswerValue } from "./answer.ts";
import type { AnswersRead } from "./answers-read.ts";
import type { LiveConcessions } from "./concessions.ts";
import { evidenceFinding } from "./evidence.ts";
import { instrumentFinding } from "./instrument-finding.ts";
import { judgeValue } from "./judge-value.ts";
import type { Timeline } from "./timeline.ts";
import { type Finding, failing, laidOver } from "./verdict.ts";

/** What an answer is judged among. */
export interface Surroundings {
  plan: CompiledPlan;
  context: JobContext;
  timeline: Timeline;
  read: AnswersRead;
  concessions: LiveConcessions;
}

/** Judges single answers of one job, each once. */
export class AnswerJudge {
  readonly #around: Surroundings;
  readonly #instruments: ReadonlyMap<string, InstrumentFacts>;
  readonly #findings = new Map<Answer, Finding>();

  constructor(around: Surroundings) {
    this.#around = around;
    this.#instruments = new Map(around.context.instruments.map((entry) => [entry.id, entry]));
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
    const parsed = parseAnswerValue(item, answer.value);
    if (!parsed.ok) {
      return failing("unreadable", parsed.problem, { toClear: "Answer again." });
    }
    const rule = this.#rule(compiled);
    const { context, read } = this.#around;
    const instrument =
      answer.instrumentId === undefined ? undefined : this.#instruments.get(answer.instrumentId);
    const finding = judgeValue(compiled, parsed.value, {
      rule,
      instrument,
      unit: subject.unit,
      units: context.units,
      names: () => read.limitNames(compiled, subject, answer),
    });
    const early = compiled.needs.length > 0 ? this.#early(compiled, subject, answer) : undefined;
    if (early && item.sequence !== "mark") return laidOver(finding, early);
    if (!finding.clears && finding.code !== "uncertainty-unknown") return finding;
    const { timeZone } = context.site;
    const problem =
      instrumentFinding(item, answer, instrument, { rule, timeZone }) ??
      (finding.clears ? evidenceFinding(item, answer) : undefined);
    if (problem) return item.kind === "photo" ? problem : laidOver(finding, problem);
    if (!early || !finding.clears) return finding;
    return { ...laidOver(finding, early), clears: true };
  }

  #rule({ item }: CompiledItem): DecisionRule {
    const own = "decisionRule" in item ? item.decisionRule : undefined;
    return own ?? this.#around.plan.plan.decisionRule;
  }

  /** Told when something that must be met before was not, at the moment this answer was taken. */
  #early(compiled: CompiledItem, subject: Subject, answer: Answer): Finding | undefined {
    for (const id of compiled.needs) {
      const needed = this.#around.plan.byId.get(id);
      const unmet = needed && this.#unmet(compiled, needed, subject, answer);
      if (unmet) return outOfSequence(needed.item.title, unmet);
    }
    return undefined;
  }

  #unmet(
    compiled: CompiledItem,
    needed: CompiledItem,
    subject: Subject,
    moment: Answer,
  ): Subject | undefined {
    const all = subjectsOf(needed.item, this.#around.context);
    if (all.length === 0) {
      return this.#around.read.applies(needed, NOBODY, moment) ? NOBODY : undefined;
    }
    const isOwn =
      needed.item.repeat !== undefined &&
      !compiled.needsAll.includes(needed.item.id) &&
      sameSubjects(compiled.item, needed.item);
    return all.find(
      (other) => !(isOwn && other.key !== subject.key) && !this.#wasMet(needed, other, moment),
    );
  }

  #wasMet(needed: CompiledItem, subject: Subject, moment: Answer): boolean {
    const { read, timeline, concessions } = this.#around;
    const before = timeline.lastBefore(needed.item.id, subject.key, moment);
    if (before && this.finding(needed, subject, before).clears) return true;
    if (concessions.releasing(needed.item, subject.key, before)) return true;
    return !read.applies(needed, subject, moment);
  }
}

const NOBODY: Subject = { key: "", label: "" };

function outOfSequence(title: string, { label }: Subject): Finding {
  return {
    outcome: "out-of-sequence",
    clears: false,
    code: "out-of-sequence",
    sentence: `Taken before "${title}"${label ? ` (${label})` : ""} was met.`,
    toClear: `Meet "${title}" first, then do this again.`,
  };
}
