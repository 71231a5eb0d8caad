import type { Config } from "../../config.ts";
import type { FirmTransaction } from "../../db/scope.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { dayAndTime } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import { A_PAGE, type Sorting } from "../../web/sorted-list.ts";
import { shownTelling } from "../visit-mails/pending.ts";
import { listPending } from "../visit-mails/pending-store.ts";
import { listFailingAddresses } from "./failing-address-store.ts";
import { mailView } from "./mail-view.ts";
import { countMails } from "./outbox-store.ts";
import { clockOf } from "./shown.ts";
import { type SortedMailFilter, sortedMails } from "./sorted-store.ts";

const TELLINGS_MOST = 50;
const ADDRESSES_MOST = 50;

export interface OutboxQuestion {
  filter: SortedMailFilter;
  sorting: Sorting;
  now: Date;
  config: Config;
}

/** All that the outbox's page shows: a page of the mails, and what stands before them. */
export async function readOutbox(
  tx: FirmTransaction,
  { filter, sorting, now, config }: OutboxQuestion,
  language: ShownLanguage,
) {
  const clock = await clockOf(tx, now, config);
  const rows = await sortedMails(tx, filter, { sorting, most: A_PAGE + 1 });
  const mails = rows.map(({ place, ...row }) => ({ ...mailView(row, clock, language), place }));
  const moment = (time: Date) => dayAndTime(language, time, clock.timeZone);
  const failing = await listFailingAddresses(tx, { most: ADDRESSES_MOST });
  return {
    mails,
    counts: await countMails(tx, filter),
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
