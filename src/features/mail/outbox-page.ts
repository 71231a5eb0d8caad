import type { Config } from "../../config.ts";
import type { FirmTransaction } from "../../db/scope.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { dayAndTime } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import { shownTelling } from "../visit-mails/pending.ts";
import { listPending } from "../visit-mails/pending-store.ts";
import { listFailingAddresses } from "./failing-address-store.ts";
import { mailView } from "./mail-view.ts";
import { countMails, listMails, type MailState } from "./outbox-store.ts";
import { clockOf } from "./shown.ts";

const TELLINGS_MOST = 50;
const ADDRESSES_MOST = 50;

export interface OutboxQuestion {
  state: MailState | undefined;
  after: string | undefined;
  most: number;
  now: Date;
  config: Config;
}

/** All that the outbox's page shows: the mails, newest first, and what stands before them. */
export async function readOutbox(
  tx: FirmTransaction,
  { state, after, most, now, config }: OutboxQuestion,
  language: ShownLanguage,
) {
  const clock = await clockOf(tx, now, config);
  const rows = await listMails(tx, { state, after, newestFirst: true, most: most + 1 });
  const mails = rows.slice(0, most).map((row) => mailView(row, clock, language));
  const last = rows.length > most ? mails.at(-1) : undefined;
  const moment = (time: Date) => dayAndTime(language, time, clock.timeZone);
  const failing = await listFailingAddresses(tx, { most: ADDRESSES_MOST });
  return {
    mails,
    next: last ? Buffer.from(last.id).toString("base64url") : null,
    counts: await countMails(tx),
    failing: failing.map((row) => ({ ...row, since: moment(row.failingSince) })),
    tellings: (await listPending(tx, now, TELLINGS_MOST)).map((row) => {
      const { dueAt, startsAt, timeZone, blockedBy, ...telling } = shownTelling(row);
      return {
        ...telling,
        jobId: row.visit.jobId,
        starts: dayAndTime(language, new Date(startsAt), timeZone),
        due: moment(new Date(dueAt)),
        blocked: blockedBy === null ? undefined : say(language, `outbox.blocked.${blockedBy}`),
      };
    }),
  };
}
