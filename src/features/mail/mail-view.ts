// A mail as the outbox's pages show it: the words for its state, and what may be done with it.
import type { MessageKey } from "../../language/catalogue.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { dayAndTime } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import { isOffered, isUnderWay, MAIL_ACTIONS } from "./change-mail.ts";
import { MAIL_STATES, type MailState, type OutboxMail } from "./outbox-store.ts";
import { type Clock, shown } from "./shown.ts";
import type { SortedMailFilter } from "./sorted-store.ts";

/** Told by a sign besides the colour. */
const SIGNS: Record<MailState, { sign: string; tone: "good" | "bad" | "warn" | "plain" }> = {
  waiting: { sign: "…", tone: "plain" },
  held: { sign: "‖", tone: "warn" },
  sent: { sign: "✓", tone: "good" },
  failed: { sign: "▲", tone: "bad" },
  returned: { sign: "▲", tone: "bad" },
  cancelled: { sign: "–", tone: "plain" },
};

export function mailView(row: OutboxMail, clock: Clock, language: ShownLanguage) {
  const { nextAttemptAt, waitsFor, ...mail } = shown(row, clock);
  const moment = (time: string | null) =>
    time === null ? undefined : dayAndTime(language, new Date(time), clock.timeZone);
  return {
    ...mail,
    stateName: say(language, `outbox.state.${mail.state}`),
    ...SIGNS[mail.state],
    kindName: say(language, `outbox.kind.${mail.kind}` as MessageKey),
    waits:
      waitsFor === null
        ? undefined
        : say(language, `outbox.waits.${waitsFor}`, { time: moment(nextAttemptAt) ?? "" }),
    written: moment(mail.createdAt),
    sent: moment(mail.sentAt),
    lastAttempt: moment(mail.lastAttemptAt),
    customerName: row.customer?.name,
    job: row.visit?.job,
    underWay: isUnderWay(row, clock.now),
    actions: MAIL_ACTIONS.filter((action) => isOffered(action, row, clock.now))
      .filter((action) => clock.hasServer || action !== "attempt")
      .map((action) => ({ action, text: say(language, `outbox.act.${action}`) })),
  };
}

/** Links to the mails of each state, with how many there are; the other filters stay. */
export function stateLinks(
  counts: Partial<Record<MailState, number>>,
  { state: chosen, kind, recipient }: SortedMailFilter,
  language: ShownLanguage,
) {
  const all = Object.values(counts).reduce((sum, count) => sum + count, 0);
  const link = (state?: MailState) => {
    const query = new URLSearchParams(Object.entries({ state, kind, recipient }).flatMap(given));
    return { href: query.size === 0 ? "/outbox" : `/outbox?${query}`, current: state === chosen };
  };
  const states = MAIL_STATES.map((state) => ({
    ...{ ...link(state), text: say(language, `outbox.state.${state}`) },
    count: counts[state] ?? 0,
  }));
  return [{ ...link(), text: say(language, "list.all"), count: all }, ...states];
}

const given = ([name, value]: [string, string | undefined]): [string, string][] =>
  value ? [[name, value]] : [];
