// A version as a list of stages and items, with what its check says beside the place it is about.
import type { DraftItem, DraftStage } from "../../domain/plan/edit.ts";
import type { PlanProblem } from "../../domain/plan/problem.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { isMessageKey, say } from "../../language/say.ts";
import { limitFields } from "./limit-fields.ts";
import { repeatFields } from "./repeat-fields.ts";

interface Findings {
  publishable: boolean;
  problems: PlanProblem[];
  warnings: PlanProblem[];
}

export function outlineOf(language: ShownLanguage, stages: DraftStage[], findings: Findings) {
  const { publishable, problems, warnings } = findings;
  const place = (pointer: string) => /^\/stages\/(\d+)(?:\/items\/(\d+))?/.exec(pointer);
  const told = (list: PlanProblem[]) =>
    list.map(({ pointer, sentence }) => {
      const [, stage, item] = place(pointer) ?? [];
      const found = stages[Number(stage)]?.items[Number(item)];
      return { sentence, itemId: found?.id, itemTitle: found?.title };
    });
  const sentencesAt = (list: PlanProblem[], stage: number, item: number) =>
    list
      .filter(({ pointer }) => {
        const found = place(pointer);
        return found?.[1] === String(stage) && found[2] === String(item);
      })
      .map(({ sentence }) => sentence);
  return {
    publishable,
    problems: told(problems),
    warnings: told(warnings),
    stages: stages.map((stage, at) => ({
      ...{ id: stage.id, title: stage.title },
      items: stage.items.map((item, place) => ({
        ...{ id: item.id, title: item.title, kind: kindName(language, item.kind) },
        ...{ holdPoint: item.holdPoint === true, safetyCritical: item.safetyCritical === true },
        asks: asksOf(language, item),
        problems: sentencesAt(problems, at, place),
        warnings: sentencesAt(warnings, at, place),
      })),
    })),
  };
}

export function kindName(language: ShownLanguage, kind: string): string {
  const key = `editor.kind.${kind}`;
  return isMessageKey(key) ? say(language, key) : kind;
}

/** The limit and the repetition in short, as they are typed: "43.2 to 55.2 V, per unit". */
function asksOf(language: ShownLanguage, item: DraftItem): string {
  const limit = limitFields(item.limit);
  const unit = typeof item.unit === "string" ? ` ${item.unit}` : "";
  const parts = [limitWords(language, limit, unit)];
  const { repeat, times } = repeatFields(item.repeat);
  if (repeat === "unit") parts.push(say(language, "editor.perUnit"));
  if (repeat === "times") parts.push(say(language, "editor.times", { times }));
  if (repeat === "groups") parts.push(say(language, "editor.perGroup"));
  return parts.filter((part) => part !== "").join(", ");
}

function limitWords(language: ShownLanguage, limit: Record<string, string>, unit: string): string {
  const { least, most } = limit;
  switch (limit.limitForm) {
    case "range":
      if (least && most) return `${say(language, "editor.between", { least, most })}${unit}`;
      return least ? `≥ ${least}${unit}` : `≤ ${most}${unit}`;
    case "nominal": {
      const tolerance = limit.toleranceIn === "percent" ? " %" : unit;
      return `${limit.nominal}${unit} ± ${limit.tolerance}${tolerance}`;
    }
    case "one-of":
      return (limit.oneOf ?? "").split("\n").join(" / ");
    case "count":
      return `= ${limit.count}`;
    case "expression":
      return limit.words || (limit.expression ?? "");
    default:
      return "";
  }
}
