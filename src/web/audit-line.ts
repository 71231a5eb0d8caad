// The line that an auditor reads on every page: until when they see what.
import type { ShownLanguage } from "../language/languages.ts";
import { plainDay } from "../language/moments.ts";
import { say } from "../language/say.ts";
import type { AuditStanding, AuditWithin } from "./audit-standing.ts";

/** With so many days left, or fewer, the end is said louder: the last three days. */
const ENDING_DAYS_LEFT = 2;
const NAMED_MOST = 5;

export function auditLine(
  { within, untilOn, daysLeft, refusal }: AuditStanding,
  language: ShownLanguage,
): { text: string; isEnding: boolean } | undefined {
  if (!within || refusal !== undefined) return undefined;
  const scope = scopeText(within, language);
  if (untilOn === undefined || daysLeft === undefined) {
    return { text: say(language, "access.lineNoEnd", { scope }), isEnding: false };
  }
  const isEnding = daysLeft <= ENDING_DAYS_LEFT;
  const values = { day: plainDay(language, untilOn), scope, days: daysLeft };
  const text = say(language, isEnding ? "access.lineEnding" : "access.line", values);
  return { text, isEnding };
}

function scopeText({ period, models, siteCount }: AuditWithin, language: ShownLanguage): string {
  const day = (text: string) => plainDay(language, text);
  const dates = period && { from: day(period.from), to: day(period.to) };
  const named = { count: models.length, models: models.join(", ") };
  const parts = [
    ...(dates ? [say(language, "access.ofPeriod", dates)] : []),
    ...(models.length > NAMED_MOST ? [say(language, "access.lineModelCount", named)] : []),
    ...(models.length > 0 && models.length <= NAMED_MOST
      ? [say(language, "access.lineModels", named)]
      : []),
    ...(siteCount > 0 ? [say(language, "access.lineSites", { count: siteCount })] : []),
  ];
  return parts.length > 0 ? parts.join("; ") : say(language, "access.lineWholeFirm");
}
