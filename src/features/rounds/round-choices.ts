import { Temporal } from "temporal-polyfill";
import { FIRMWARE_SEVERITIES } from "../../domain/firmware/deadline.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { say } from "../../language/say.ts";

export const defaultsFrom = (today: string) => ({
  ...{ fromDay: Temporal.PlainDate.from(today).add({ days: 1 }).toString(), days: "5" },
  ...{ siteMin: "20", unitMin: "20", sitesMost: "60" },
});

interface Choices {
  crews: { id: string; name: string }[];
  plans: { id: string; code: string; title: string; versions: { state: string }[] }[];
  models: { id: string; code: string }[];
}

export function choicesOf(
  { crews, plans, models }: Choices,
  ticked: string[],
  language: ShownLanguage,
) {
  return {
    crews: crews.map(({ id, name }) => ({
      ...{ id, name, ticked: ticked.length === 0 || ticked.includes(id) },
    })),
    plans: plans
      .filter(({ versions }) => versions.some(({ state }) => state === "published"))
      .toSorted((left, right) => Number(isForUpdates(right)) - Number(isForUpdates(left)))
      .map(({ id, code, title }) => ({ value: id, text: `${code} ${title}` })),
    models: models.map(({ id, code }) => ({ value: id, text: code })),
    severities: FIRMWARE_SEVERITIES.map((value) => ({
      value,
      text: say(language, `fleet.severity.${value}`),
    })),
  };
}

const isForUpdates = ({ code }: { code: string }): boolean => code.startsWith("FIRMWARE");
