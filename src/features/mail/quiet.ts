import { quietUntil } from "../../domain/calendar/quiet-hours.ts";
import type { MailSettings } from "./settings-store.ts";

/** When the firm's quiet hours that hold at `now` end; undefined when it is not quiet. */
export function quietEnd(
  { quietFrom, quietTo }: Pick<MailSettings, "quietFrom" | "quietTo">,
  timeZone: string,
  now: Date,
): Date | undefined {
  if (quietFrom === null || quietTo === null) return undefined;
  const end = quietUntil(now.toISOString(), { from: quietFrom, to: quietTo }, timeZone);
  return end === undefined ? undefined : new Date(end);
}
