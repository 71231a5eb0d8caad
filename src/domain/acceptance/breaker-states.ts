// Requirement: how a breaker stands when a test is made is what the latest item before it says that
// was met and leaves that breaker one way or the other; otherwise it is not known.
import type { CompiledItem } from "../plan/compile.ts";
import type { BreakerSet, BreakerState } from "../plan/sequence.ts";
import type { Subject } from "../plan/subjects.ts";
import type { Answer } from "./answer.ts";
import type { Findings, Surroundings } from "./surroundings.ts";
import { byMoment } from "./timeline.ts";

/** A breaker as an answer left it. */
export interface BreakerMove {
  answer: Answer;
  state: BreakerState;
  /** Title of the item that left it so. */
  by: string;
}

interface Mover {
  compiled: CompiledItem;
  leaves: readonly BreakerSet[];
  subject: Subject;
  answer: Answer;
}

/**
 * How the breakers of one job stood at any moment. The answers that move breakers are judged in the
 * order they were taken and no further than is asked: each may rest on how those before it left
 * breakers, and a long row of them must not become a deep recursion.
 */
export class BreakerStates {
  readonly #finding: Findings;
  readonly #movers: readonly Mover[];
  readonly #moves = new Map<string, BreakerMove[]>();
  #judged = 0;

  constructor({ plan, timeline, subjects }: Surroundings, finding: Findings) {
    this.#finding = finding;
    this.#movers = plan.items
      .flatMap((compiled) => {
        const leaves = compiled.sequence?.leaves ?? [];
        if (leaves.length === 0) return [];
        return subjects(compiled).flatMap((subject) =>
          timeline
            .attempts(compiled.item.id, subject.key)
            .map((answer) => ({ compiled, leaves, subject, answer })),
        );
      })
      .sort((left, right) => byMoment(left.answer, right.answer));
  }

  /** How the breaker was left last before `moment`; undefined where that is not known. */
  before(breaker: string, moment: Answer): BreakerMove | undefined {
    this.#judgeUntil(moment);
    const moves = this.#moves.get(breaker) ?? [];
    let low = 0;
    let high = moves.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      const move = moves[middle];
      if (move && byMoment(move.answer, moment) < 0) low = middle + 1;
      else high = middle;
    }
    return moves[low - 1];
  }

  /** Judging one asks only for what lies before it, which has been judged by then. */
  #judgeUntil(moment: Answer): void {
    for (;;) {
      const next = this.#movers[this.#judged];
      if (!next || byMoment(next.answer, moment) >= 0) return;
      const { clears } = this.#finding(next.compiled, next.subject, next.answer);
      this.#judged += 1;
      if (clears) this.#note(next);
    }
  }

  #note({ compiled, leaves, answer }: Mover): void {
    for (const { breaker, state } of leaves) {
      const moves = this.#moves.get(breaker) ?? [];
      moves.push({ answer, state, by: compiled.item.title });
      this.#moves.set(breaker, moves);
    }
  }
}
