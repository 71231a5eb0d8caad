// Requirement: whether an item was met at a moment: by its last answer before, unless a failure
// since asks for it to be repeated, or by a concession, or because it was not asked.
import type { CompiledItem } from "../plan/compile.ts";
import type { Subject } from "../plan/subjects.ts";
import type { Answer } from "./answer.ts";
import type { Failure, RepeatDemands } from "./repeat-demands.ts";
import { type Findings, isOwnSubject, NOBODY, type Surroundings } from "./surroundings.ts";
import { byMoment } from "./timeline.ts";

/** What was not met, and the failure for which it was to be repeated, if that is why. */
export interface Unmet {
  needed: CompiledItem;
  subject: Subject;
  failure?: Failure;
}

/** Dead items of one live item that the answers so far do not settle for good. */
interface Settling {
  /** The last answer to any of them; none of them is looked at before it. */
  last: Answer | undefined;
  unsettled?: readonly string[];
}

/** How the items of one job stood at any moment. */
export class Standing {
  readonly #around: Surroundings;
  readonly #finding: Findings;
  readonly #demands: RepeatDemands;
  readonly #settling = new Map<readonly string[], Settling>();

  constructor(around: Surroundings, finding: Findings, demands: RepeatDemands) {
    this.#around = around;
    this.#finding = finding;
    this.#demands = demands;
  }

  /** What of a needed item was not met for the subject, or for all, when it matters for all. */
  unmet(
    compiled: CompiledItem,
    needed: CompiledItem,
    subject: Subject,
    moment: Answer,
  ): Unmet | undefined {
    const all = this.#around.subjects(needed);
    if (all.length === 0) {
      const isAsked = this.#around.read.applies(needed, NOBODY, moment);
      return isAsked ? { needed, subject: NOBODY } : undefined;
    }
    const isOwn = isOwnSubject(compiled, needed);
    for (const other of all) {
      if (isOwn && other.key !== subject.key) continue;
      const unmet = this.#unmetFor(needed, other, moment);
      if (unmet) return unmet;
    }
    return undefined;
  }

  /** The answer by which the item was met or released before `moment`. */
  metBy(needed: CompiledItem, subject: Subject, moment: Answer): Answer | undefined {
    return this.#around.read.applies(needed, subject, moment)
      ? this.#around.timeline.lastBefore(needed.item.id, subject.key, moment)
      : undefined;
  }

  #unmetFor(needed: CompiledItem, subject: Subject, moment: Answer): Unmet | undefined {
    const { read, timeline, concessions } = this.#around;
    const before = timeline.lastBefore(needed.item.id, subject.key, moment);
    const isMet = before !== undefined && this.#finding(needed, subject, before).clears;
    const failure =
      isMet && needed.item.sequence !== "mark"
        ? this.#demands.outstanding(needed, subject, before, moment)
        : undefined;
    if (isMet && !failure) return undefined;
    if (concessions.releasing(needed.item, subject.key, before)) return undefined;
    if (!read.applies(needed, subject, moment)) return undefined;
    return failure ? { needed, subject, failure } : { needed, subject };
  }

  /**
   * Which of the dead items before a live one may be unmet at the moment. Past the last answer to
   * any of them most are met for good, and that is worked out once for all live items after them.
   */
  deadToLookAt(deadBefore: readonly string[], moment: Answer): readonly string[] {
    let settling = this.#settling.get(deadBefore);
    if (!settling) {
      settling = { last: this.#lastAnswer(deadBefore) };
      this.#settling.set(deadBefore, settling);
    }
    if (settling.last && byMoment(settling.last, moment) >= 0) return deadBefore;
    settling.unsettled ??= deadBefore.filter((id) => !this.#isSettled(id));
    return settling.unsettled;
  }

  #lastAnswer(deadBefore: readonly string[]): Answer | undefined {
    let last: Answer | undefined;
    for (const id of deadBefore) {
      const dead = this.#around.plan.byId.get(id);
      for (const { key } of dead ? this.#around.subjects(dead) : []) {
        const answer = this.#around.timeline.last(id, key);
        if (answer && (!last || byMoment(answer, last) > 0)) last = answer;
      }
    }
    return last;
  }

  /** Met by its last answers whatever failed when, or never asked on this job. */
  #isSettled(id: string): boolean {
    const dead = this.#around.plan.byId.get(id);
    const all = dead ? this.#around.subjects(dead) : [];
    if (!dead || all.length === 0) return false;
    return all.every((subject) => {
      const last = this.#around.timeline.last(dead.item.id, subject.key);
      if (!last) return this.#around.read.isNeverAsked(dead, subject);
      if (!this.#finding(dead, subject, last).clears) return false;
      return dead.item.sequence === "mark" || !this.#demands.outstanding(dead, subject, last);
    });
  }
}
