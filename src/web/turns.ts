// Work that takes a processor and much memory is done by few at one moment; who comes then waits
// in order, and who would wait too long is told to come again.
import { Problem } from "../errors.ts";

const RETRY_AFTER_S = 10;

export class Turns {
  readonly #atOnce: number;
  readonly #waitingMost: number;
  readonly #sentence: string;
  readonly #waiting: (() => void)[] = [];
  #working = 0;

  /** @param bounds how many work at once, how many wait at most, and what the next is told */
  constructor(bounds: { atOnce: number; waitingMost: number; sentence: string }) {
    this.#atOnce = bounds.atOnce;
    this.#waitingMost = bounds.waitingMost;
    this.#sentence = bounds.sentence;
  }

  /** Does the work when its turn comes. @throws Problem "busy" when too many wait already */
  async take<Result>(work: () => Promise<Result>): Promise<Result> {
    if (this.#working < this.#atOnce) this.#working += 1;
    else await this.#wait();
    try {
      return await work();
    } finally {
      const next = this.#waiting.shift();
      if (next) next();
      else this.#working -= 1;
    }
  }

  #wait(): Promise<void> {
    if (this.#waiting.length >= this.#waitingMost) {
      throw new Problem("busy", this.#sentence, { retryAfterS: RETRY_AFTER_S });
    }
    return new Promise((resolve) => {
      this.#waiting.push(resolve);
    });
  }
}
