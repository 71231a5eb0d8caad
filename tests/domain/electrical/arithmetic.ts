// Re-does the arithmetic a step shows, so that the printed working is held against the
// printed result by something other than the code that produced both.

const ALLOWED = /^(?:[0-9.eE+*/(), -]|\*\*|Math\.(?:sqrt|log|abs|min|max|floor|PI))+$/;

/** Evaluates a step's "substituted" line as plain arithmetic. */
export function evaluate(substituted: string): number {
  const script = substituted
    .replaceAll("×", "*")
    .replaceAll("−", "-")
    .replaceAll("²", "**2")
    .replaceAll("^", "**")
    .replaceAll("√", "Math.sqrt")
    .replaceAll("π", "Math.PI")
    .replace(/\b(abs|min|max|floor)\(/g, "Math.$1(");
  if (!ALLOWED.test(script)) throw new Error(`not plain arithmetic: ${substituted}`);
  return new Function(`return ${script};`)() as number;
}

/** The largest number written in the line: what its rounding errors are measured against. */
export function largestOperand(substituted: string): number {
  const numbers = substituted.replaceAll("−", "-").match(/\d+(?:\.\d+)?(?:e-?\d+)?/g) ?? [];
  return Math.max(0, ...numbers.map(Number));
}
