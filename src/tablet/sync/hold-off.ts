// Requirement: a service in trouble is not asked all the time, by a fleet of tablets at once least
// of all. Waits double and are spread by chance; what the service asks for itself is honoured.
// Measured by the page's own clock: the tablet's may jump.
import type { Halt } from "./halt.ts";

const FIRST_MS = 2_000;
const MOST_MS = 5 * 60_000;
/** No service may silence a tablet for longer. */
const RETRY_AFTER_MOST_MS = 60 * 60_000;

export class HoldOff {
  #failures = 0;
  #untilMs = 0;
  #askedUntilMs = 0;

  /** @param chance from 0 to 1 */
  failed({ state, retryAfterMs }: Halt, nowMs: number, chance: number): void {
    // Without signal nobody is asked too often; the next try costs nothing.
    if (state === "offline") return;
    const full = Math.min(MOST_MS, FIRST_MS * 2 ** this.#failures);
    this.#failures = Math.min(this.#failures + 1, 20);
    const asked = Math.min(retryAfterMs ?? 0, RETRY_AFTER_MOST_MS);
    this.#untilMs = nowMs + Math.max(full / 2 + (full / 2) * chance, asked * (1 + 0.1 * chance));
    if (retryAfterMs !== undefined) this.#askedUntilMs = nowMs + asked;
  }

  passed(): void {
    this.#failures = 0;
    this.#untilMs = 0;
    this.#askedUntilMs = 0;
  }

  /** How long to wait: by itself; or when a person asks, only for what the service asked for. */
  waitMs(nowMs: number, byHand: boolean): number {
    return Math.max(0, (byHand ? this.#askedUntilMs : this.#untilMs) - nowMs);
  }
}
