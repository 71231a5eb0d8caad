import type { ShownLanguage } from "../../language/languages.ts";
import { dayAndTime, plainDay } from "../../language/moments.ts";
import { isMessageKey, say } from "../../language/say.ts";
import type { SiteDue } from "../firmware/due-list.ts";
import type { UnitLifeRow } from "./life-store.ts";

interface Reader {
  language: ShownLanguage;
  timeZone: string;
}

/** The life of a unit in the reader's words, the newest first. */
export function lifeView(
  life: UnitLifeRow,
  due: SiteDue | undefined,
  { language, timeZone }: Reader,
) {
  const at = (text: string) => dayAndTime(language, new Date(text), timeZone);
  const word = (key: string, otherwise: string) =>
    isMessageKey(key) ? say(language, key) : otherwise;
  const below = due?.units.find(({ id }) => id === life.id);
  const unclear = due?.unclear.find(({ id }) => id === life.id);
  return {
    unit: {
      ...life,
      stateWord: word(`registry.unit.${life.state}`, life.state),
      kindWord: word(`models.kind.${life.kind}`, life.kind),
      readAt: life.firmwareReadAt && dayAndTime(language, life.firmwareReadAt, timeZone),
    },
    due: below && {
      ...{ to: below.to, day: plainDay(language, below.dueOn), late: below.daysLeft < 0 },
    },
    unclear: unclear && { to: unclear.to },
    events: life.events.toReversed().map((event) => ({
      ...event,
      when: at(event.at),
      what: word(`registry.unit.${event.kind}`, event.kind),
    })),
    readings: life.firmwareReadings.toReversed().map((reading) => ({
      ...reading,
      when: at(reading.readAt),
      flagWord: reading.flag && word(`registry.flag.${reading.flag}`, reading.flag),
    })),
    swaps: [
      ...life.replaces.map((swap) => ({ ...swap, when: at(swap.at), came: false })),
      ...life.replacedBy.map((swap) => ({ ...swap, when: at(swap.at), came: true })),
    ],
  };
}
