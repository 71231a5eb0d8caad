// Requirement: what could not be written is never shown as kept, and the person is told the way on.

import { phrase } from "../language/spoken.ts";

type Why = "full" | "outdated" | "broken";

/** Nothing was written. */
export class KeepRefused extends Error {
  readonly code: Why;

  constructor(code: Why, cause?: unknown) {
    super(phrase(`tabletSync.notKept.${code}`), { cause });
    this.name = "KeepRefused";
    this.code = code;
  }
}

export function toRefusal(error: unknown): KeepRefused {
  if (error instanceof KeepRefused) return error;
  const name = nameOf(error);
  if (name === "QuotaExceededError") return new KeepRefused("full", error);
  return new KeepRefused(name === "VersionError" ? "outdated" : "broken", error);
}

export const nameOf = (error: unknown): string =>
  typeof error === "object" && error !== null ? String((error as { name?: unknown }).name) : "";
