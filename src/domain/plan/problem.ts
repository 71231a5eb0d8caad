// Requirement: whatever is wrong with a plan is told with its place in the document.

export interface PlanProblem {
  /** JSON pointer into the document (RFC 6901). */
  pointer: string;
  code: string;
  sentence: string;
}

/** The JSON pointer of a path (RFC 6901 section 3: ~ is written ~0, / is written ~1). */
export const pointerOf = (path: readonly PropertyKey[]): string =>
  path.map((part) => `/${String(part).replaceAll("~", "~0").replaceAll("/", "~1")}`).join("");
