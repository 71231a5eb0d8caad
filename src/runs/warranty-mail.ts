import type { Config } from "../config.ts";
import { type MailText, mailTemplate } from "../features/mail/template.ts";
import type { WarrantyDay } from "../features/warranty/calendar-store.ts";
import type { Language } from "../language/languages.ts";
import { plainDay } from "../language/moments.ts";
import { say } from "../language/say.ts";

/** What a person reads through in one mail; the rest is behind the link. */
const DAYS_IN_MAIL = 40;

const render = mailTemplate("warranty-notice");

export interface WarrantyMailGround {
  firm: string;
  day: string;
  language: Language;
  config: Config;
}

/** The reminder of days to come, the nearest first. */
export function warrantyMail(
  days: readonly WarrantyDay[],
  { firm, day, language, config }: WarrantyMailGround,
): MailText {
  const ends = days.filter(({ kind }) => kind === "ends").length;
  const link = new URL(
    "/warranty/calendar",
    config.PUBLIC_URL ?? `http://localhost:${config.PORT}`,
  );
  return render({
    ...{ language, firm, day: plainDay(language, day), link: link.href },
    ...{ ends, register: days.length - ends, more: Math.max(0, days.length - DAYS_IN_MAIL) },
    list: days.slice(0, DAYS_IN_MAIL).map((one) => ({
      ...{ serial: one.serial, modelCode: one.modelCode, site: one.siteReference ?? "–" },
      ...{ what: say(language, `warranty.dayKind.${one.kind}`), day: plainDay(language, one.day) },
    })),
  });
}
