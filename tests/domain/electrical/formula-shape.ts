// A step prints its formula in letters and again in numbers; the two must be the same
// formula. Both are cut into operators and operands and laid side by side.

const OPERATORS = /(floor\(|min\(|[×/+−^²√()])/;

/** "U0 × (1 + a)" becomes ["U0", "×", "(", "1", "+", "a", ")"]. */
export function tokens(line: string): string[] {
  const formula = line.split(/, [ac] (?:=|in) /)[0] ?? line;
  const positive = formula.replaceAll(/\(−([\d.]+(?:e-?\d+)?)\)/g, "negative$1");
  const parts = positive.split(OPERATORS).map((part) => part.trim());
  return parts.filter((part) => part !== "");
}

const isOperator = (token: string) => OPERATORS.test(token);
const isNumber = (token: string) => /^\d[\d.]*$/.test(token);

/** True when the numbers were put into exactly the formula that is printed. */
export function sameFormula(formula: string, substituted: string): boolean {
  const letters = tokens(formula);
  const numbers = tokens(substituted);
  if (letters.length !== numbers.length) return false;
  return letters.every((letter, index) => {
    const number = numbers[index] ?? "";
    if (isOperator(letter) || isNumber(letter)) return letter === number;
    return !isOperator(number);
  });
}
