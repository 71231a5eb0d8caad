// Requirement: a test is done in its place: after what must be met before it, dead tests before
// live ones, with the breakers as it needs them, not sooner or later after another than it says,
// and once it has failed not again before what the fault may have influenced has been repeated
// (IEC 60364-6 6.4.3.1, from memory). Each is judged by what was answered before the moment.
import type { CompiledItem, CompiledPlan } from "../plan/compile.ts";
import type { BreakerSet } from "../plan/sequence.ts";
import type { Subject } from "../plan/subjects.ts";
import type { Answer } from "./answer.ts";
import { BreakerStates } from "./breaker-states.ts";
import { dwellObstacle } from "./dwell.ts";
import type { Obstacle } from "./obstacle.ts";
import { RepeatDemands } from "./repeat-demands.ts";
import { Standing } from "./standing.ts";
import { type Findings, isOwnSubject, type Surroundings } from "./surroundings.ts";

/** The items of the plan that leave the breaker as it is wanted. */
const waysTo = ({ items }: CompiledPlan, { breaker, state }: BreakerSet): CompiledItem[] =>
  items.filter(({ sequence }) =>
    sequence?.leaves.some((left) => left.breaker === breaker && left.state === state),
  );

/** A dead item may be told in `after` too, and among what a failure repeats. */
const isSameNeed = (left: Obstacle, right: Obstacle): boolean =>
  left.kind === "unmet" && right.kind === "unmet" && left.needed === right.needed;

/** Takes an obstacle; true when no more are wanted. */
type Take = (obstacle: Obstacle) => boolean;

/** Finds what kept items of one job from being done when they were. */
export class Sequence {
  readonly demands: RepeatDemands;
  readonly #around: Surroundings;
  readonly #finding: Findings;
  readonly #standing: Standing;
  #breakers: BreakerStates | undefined;

  /**
   * @param finding judges an answer, its place in the sequence included
   * @param ofValue judges the reading of an answer alone
   */
  constructor(around: Surroundings, finding: Findings, ofValue: Findings) {
    this.#around = around;
    this.#finding = finding;
    this.demands = new RepeatDemands(around, ofValue);
    this.#standing = new Standing(around, finding, this.demands);
  }

  /** The first thing that kept the item from being done for the subject at the moment. */
  first(compiled: CompiledItem, subject: Subject, moment: Answer): Obstacle | undefined {
    let first: Obstacle | undefined;
    this.#visit(compiled, subject, moment, (obstacle) => {
      first = obstacle;
      return true;
    });
    return first;
  }

  /** What keeps it from being done, at most `most`; of each item needed, one unmet subject. */
  several(compiled: CompiledItem, subject: Subject, most: number, moment: Answer): Obstacle[] {
    const found: Obstacle[] = [];
    this.#visit(compiled, subject, moment, (obstacle) => {
      if (!found.some((other) => isSameNeed(other, obstacle))) found.push(obstacle);
      return found.length >= most;
    });
    return found;
  }

  #visit(compiled: CompiledItem, subject: Subject, moment: Answer, take: Take): void {
    const { sequence, needs } = compiled;
    if (this.#visitUnmet(compiled, needs, subject, moment, take) || !sequence) return;
    const dead = this.#standing.deadToLookAt(sequence.deadBefore, moment);
    if (this.#visitUnmet(compiled, dead, subject, moment, take, true)) return;
    const { repeats } = sequence;
    if (repeats.length > 0 && this.demands.hasFailed(compiled, subject, moment)) {
      if (this.#visitUnmet(compiled, repeats, subject, moment, take)) return;
    }
    const dwell = this.#dwell(compiled, subject, moment);
    if (dwell && take(dwell)) return;
    this.#visitBreakers(sequence.stand, moment, take);
  }

  #visitUnmet(
    compiled: CompiledItem,
    others: readonly string[],
    subject: Subject,
    moment: Answer,
    take: Take,
    isDead = false,
  ): boolean {
    for (const id of others) {
      const needed = this.#around.plan.byId.get(id);
      const unmet = needed && this.#standing.unmet(compiled, needed, subject, moment);
      if (unmet && take({ kind: "unmet", isDead, ...unmet })) return true;
    }
    return false;
  }

  #visitBreakers(stand: readonly BreakerSet[], moment: Answer, take: Take): void {
    if (stand.length === 0) return;
    this.#breakers ??= new BreakerStates(this.#around, this.#finding);
    for (const wanted of stand) {
      const known = this.#breakers.before(wanted.breaker, moment);
      if (known?.state === wanted.state) continue;
      const ways = waysTo(this.#around.plan, wanted);
      if (take({ kind: "breaker", wanted, known, ways })) return;
    }
  }

  #dwell(compiled: CompiledItem, subject: Subject, moment: Answer): Obstacle | undefined {
    const { dwell } = compiled.item;
    const needed = dwell && this.#around.plan.byId.get(dwell.after);
    if (!dwell || !needed) return undefined;
    const isOwn = isOwnSubject(compiled, needed);
    const met = this.#around.subjects(needed).flatMap((other) => {
      if (isOwn && other.key !== subject.key) return [];
      const answer = this.#standing.metBy(needed, other, moment);
      return answer ? [{ subject: other, atMs: Date.parse(answer.takenAt) }] : [];
    });
    return dwellObstacle(dwell, needed, met, Date.parse(moment.takenAt));
  }
}
