// Requirement: what could not be written is never shown as kept, and the person is told the way on.

export const REFUSALS = {
  full:
    "There is no room left on this tablet, so this was not kept. Save the outbox to a file or " +
    "send it, delete films or apps to make room, and tap again.",
  outdated:
    "A newer version of this page has laid out the store anew. Load the page again, then go on; " +
    "what was kept is still there.",
  broken:
    "The tablet's store did not take this, so it was not kept. Tap again; if it happens again, " +
    "load the page anew.",
} as const;

/** Nothing was written. */
export class KeepRefused extends Error {
  readonly code: keyof typeof REFUSALS;

  constructor(code: keyof typeof REFUSALS, cause?: unknown) {
    super(REFUSALS[code], { cause });
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
