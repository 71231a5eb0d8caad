// Lines of a kit as a person types them, one a line with bars between: what it is, its name, how
// much, when it is needed, its stock code, where it stands, and a note. A bar within one of them
// stands behind a backslash.
import { ModelKit, type ModelKitLine, PlanKit, type PlanKitLine } from "../../domain/kit/line.ts";
import { refuseFaults } from "../../web/fields.ts";

type Read<Line> = { ok: true; kit: Line[] } | { ok: false; problem: string };

interface Typed {
  line: number;
  name: string;
  fields: Record<string, unknown>;
  third: string;
}

const BAR = " | ";

const joined = (parts: (string | undefined)[]): string =>
  parts
    .map((part) => part?.replaceAll("|", "\\|") ?? "")
    .join(BAR)
    .replace("|  |", "| |")
    .replace(/( \| )+$/, "");

/** "anchor | Through-bolt M10 | 4 piece | pack | BOLT-M10 | Sheet 3" */
export const modelKitText = (kit: readonly ModelKitLine[]): string =>
  kit.map((line) => lineText(line, line.supplied ? "in the box" : "pack")).join("\n");

/** "consumable | Labels | 1 set | job | LABEL-SET | common practice" */
export const planKitText = (kit: readonly PlanKitLine[]): string =>
  kit
    .map((line) => lineText(line, line.ofKind === undefined ? line.per : `unit ${line.ofKind}`))
    .join("\n");

function lineText(line: ModelKitLine | PlanKitLine, third: string): string {
  const { category, name, amount, countedIn, stockCode, source, note } = line;
  return joined([category, name, `${amount} ${countedIn}`, third, stockCode, source, note]);
}

export function readModelKit(text: string, before: readonly { id: string; name: string }[]) {
  return read(text, before, ModelKit, ({ third }) => {
    const supplied = { pack: false, "in the box": true }[third];
    return supplied === undefined ? undefined : { supplied };
  }) as Read<ModelKitLine>;
}

export function readPlanKit(text: string, before: readonly { id: string; name: string }[]) {
  return read(text, before, PlanKit, ({ third }) => {
    const [per, ofKind] = third.split(/\s+/);
    return { per, ...(ofKind ? { ofKind } : {}) };
  }) as Read<PlanKitLine>;
}

function read(
  text: string,
  before: readonly { id: string; name: string }[],
  schema: typeof ModelKit | typeof PlanKit,
  when: (typed: Typed) => object | undefined,
): Read<ModelKitLine> | Read<PlanKitLine> {
  const lines: object[] = [];
  const numbers: number[] = [];
  for (const [index, line] of text.split(/\r?\n/).entries()) {
    if (line.trim() === "") continue;
    const typed = typedLine(line, index + 1);
    const more = when(typed);
    if (more === undefined) {
      return wrong(typed.line, `"${typed.third}" is neither "pack" nor "in the box"`);
    }
    const id = before.find(({ name }) => name === typed.name)?.id ?? idFrom(typed.name);
    lines.push({ id, ...typed.fields, ...more });
    numbers.push(typed.line);
  }
  const parsed = schema.superRefine(refuseFaults()).safeParse(lines);
  if (parsed.success) return { ok: true, kit: parsed.data as never };
  const [issue] = parsed.error.issues;
  const [at, field] = issue?.path ?? [];
  if (typeof at !== "number") return { ok: false, problem: issue?.message ?? "" };
  return wrong(numbers[at] ?? 0, `${WORDS[String(field)] ?? String(field)}: ${issue?.message}`);
}

function typedLine(line: string, number: number): Typed {
  const [category, name = "", much = "", third = "", stockCode, source, ...notes] = line
    .split(/(?<!\\)\|/)
    .map((part) => part.replaceAll("\\|", "|").trim());
  const [, amount, countedIn] = /^([\d.,]+)\s*(.*)$/.exec(much) ?? [];
  const note = notes.join("|").trim();
  return {
    line: number,
    name,
    third,
    fields: {
      ...{ category, name, countedIn, amount: Number(amount?.replace(",", ".")), source },
      ...(stockCode ? { stockCode } : {}),
      ...(note ? { note } : {}),
    },
  };
}

const WORDS: Readonly<Record<string, string>> = {
  category: "what it is",
  countedIn: "what it is counted in",
  stockCode: "stock code",
  per: "when it is needed",
  ofKind: "kind of unit",
};

const wrong = (line: number, problem: string): { ok: false; problem: string } => ({
  ok: false,
  problem: `line ${line}: ${problem}`,
});

const idFrom = (name: string): string =>
  name
    .normalize("NFKD")
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, "-")
    .replaceAll(/^-+|-+$/g, "")
    .slice(0, 40) || "line";
