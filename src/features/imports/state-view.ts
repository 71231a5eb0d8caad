import type { z } from "zod";
import type { ShownLanguage } from "../../language/languages.ts";
import { number } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Import } from "./schemas.ts";

type Shown = z.infer<typeof Import>;

const TAGS: Readonly<Record<Shown["state"], "good" | "warn" | "bad" | "plain">> = {
  waiting: "warn",
  uploaded: "warn",
  checking: "warn",
  checked: "warn",
  importing: "warn",
  imported: "good",
  failed: "bad",
  cancelled: "plain",
};

export const stateView = ({ state }: Shown, language: ShownLanguage) => ({
  ...{ state, tag: TAGS[state], stateName: say(language, `imports.state.${state}`) },
});

/** How far it is, in whole percent; an empty one is done at once. */
export const percentOf = ({ progress: { done, total } }: Shown): number =>
  total === 0 ? 100 : Math.min(100, Math.floor((done / total) * 100));

const FIGURES = ["rows", "new", "changed", "unchanged", "bad", "flagged"] as const;

export const figuresView = ({ figures }: Shown, language: ShownLanguage) =>
  FIGURES.flatMap((name) => {
    const value = figures[name];
    if (value === undefined) return [];
    return [{ name: say(language, `imports.figure.${name}`), value: number(language, value) }];
  });
