// Requirement: if a test shows a fault, it is repeated, and so is every test before it that the
// fault may have influenced (IEC 60364-6 6.4.3.1, from memory). The answers of those stay as they
// were judged; that they are to be repeated is laid over how the item stands.
import type { CompiledItem } from "../plan/compile.ts";
import type { Item } from "../plan/item.ts";
import type { Subject } from "../plan/subjects.ts";
import type { Answer } from "./answer.ts";
import { clockTime } from "./clock-time.ts";
import { type Findings, isOwnSubject, type Surroundings } from "./surroundings.ts";
import { byMoment } from "./timeline.ts";
import { type Finding, missing } from "./verdict.ts";

/** A test that failed. */
export interface Failure {
  item: Item;
  subject: Subject;
  answer: Answer;
}

/** Nothing was compared with a limit, so nothing is known to be wrong with the installation. */
const NOTHING_COMPARED = new Set(["unreadable", "limit-not-computable"]);

/**
 * Whether a reading shows a fault. Under the four-way rule (ILAC-G8:09/2019) a conditional fail
 * lies outside the limit and counts; a conditional pass and a reading in a guard band lie inside:
 * what is in doubt there is the reading, not the installation.
 */
const showsFault = ({ outcome, code }: Finding): boolean =>
  code === "conditional-fail" || (outcome === "fail" && !NOTHING_COMPARED.has(code));

/** What is said of an item that was met and is to be repeated; times in the site's zone. */
export function repeatFinding({ item, subject, answer }: Failure, timeZone: string): Finding {
  const title = `"${item.title}"${subject.label ? ` (${subject.label})` : ""}`;
  const at = clockTime(Date.parse(answer.takenAt), timeZone);
  return missing(
    "repeat-after-failure",
    `${title} failed after it, at ${at}, so it is to be repeated.`,
    `Put right what failed, repeat this, then repeat "${item.title}".`,
  );
}

/** Which items failed tests ask to be repeated. */
export class RepeatDemands {
  readonly #around: Surroundings;
  readonly #ofValue: Findings;
  readonly #failures = new Map<string, readonly Answer[]>();

  /** @param ofValue judges the reading alone: a fault is one whenever and however it was read */
  constructor(around: Surroundings, ofValue: Findings) {
    this.#around = around;
    this.#ofValue = ofValue;
  }

  /**
   * The last failure, after an answer to the item and before `moment` if given, that asks for the
   * item to be repeated.
   */
  outstanding(
    compiled: CompiledItem,
    subject: Subject,
    answer: Answer,
    moment?: Answer,
  ): Failure | undefined {
    let last: Failure | undefined;
    for (const id of compiled.sequence?.repeatedBy ?? []) {
      const other = this.#around.plan.byId.get(id);
      if (!other) continue;
      const isOwn = isOwnSubject(other, compiled);
      for (const failed of this.#around.subjects(other)) {
        if (isOwn && failed.key !== subject.key) continue;
        const failure = this.#lastFailure(other, failed, moment);
        if (!failure || byMoment(failure, answer) < 0) continue;
        if (last && byMoment(failure, last.answer) < 0) continue;
        last = { item: other.item, subject: failed, answer: failure };
      }
    }
    return last;
  }

  /** Whether an attempt at the item before `moment` failed. */
  hasFailed(compiled: CompiledItem, subject: Subject, moment: Answer): boolean {
    return this.#lastFailure(compiled, subject, moment) !== undefined;
  }

  #lastFailure(compiled: CompiledItem, subject: Subject, moment?: Answer): Answer | undefined {
    const failures = this.#failuresOf(compiled, subject);
    return moment ? failures.findLast((one) => byMoment(one, moment) < 0) : failures.at(-1);
  }

  #failuresOf(compiled: CompiledItem, subject: Subject): readonly Answer[] {
    const key = `${compiled.item.id}\n${subject.key}`;
    const known = this.#failures.get(key);
    if (known) return known;
    const attempts = this.#around.timeline.attempts(compiled.item.id, subject.key);
    const failures = attempts.filter((one) => showsFault(this.#ofValue(compiled, subject, one)));
    this.#failures.set(key, failures);
    return failures;
  }
}
