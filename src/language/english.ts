// Every text in English, by its key: an area of pages has one file in each language.
import { absences } from "./en/absences.ts";
import { access } from "./en/access.ts";
import { account } from "./en/account.ts";
import { apiKeys } from "./en/api-keys.ts";
import { audits } from "./en/audits.ts";
import { bank } from "./en/bank.ts";
import { begin } from "./en/begin.ts";
import { calendar } from "./en/calendar.ts";
import { concessions } from "./en/concessions.ts";
import { crews } from "./en/crews.ts";
import { diary } from "./en/diary.ts";
import { due } from "./en/due.ts";
import { editor } from "./en/editor.ts";
import { evidence } from "./en/evidence.ts";
import { firm } from "./en/firm.ts";
import { fleet } from "./en/fleet.ts";
import { frame } from "./en/frame.ts";
import { handover } from "./en/handover.ts";
import { held } from "./en/held.ts";
import { home } from "./en/home.ts";
import { imports } from "./en/imports.ts";
import { job } from "./en/job.ts";
import { jobList } from "./en/job-list.ts";
import { jobRecord } from "./en/job-record.ts";
import { kit } from "./en/kit.ts";
import { looks } from "./en/looks.ts";
import { mail } from "./en/mail.ts";
import { models } from "./en/models.ts";
import { nonconformance } from "./en/nonconformance.ts";
import { notice } from "./en/notice.ts";
import { operation } from "./en/operation.ts";
import { outbox } from "./en/outbox.ts";
import { papers } from "./en/papers.ts";
import { people } from "./en/people.ts";
import { plans } from "./en/plans.ts";
import { privacy } from "./en/privacy.ts";
import { qualifications } from "./en/qualifications.ts";
import { recurring } from "./en/recurring.ts";
import { registry } from "./en/registry.ts";
import { registryKit } from "./en/registry-kit.ts";
import { registrySite } from "./en/registry-site.ts";
import { releases } from "./en/releases.ts";
import { rounds } from "./en/rounds.ts";
import { search } from "./en/search.ts";
import { session } from "./en/session.ts";
import { siting } from "./en/siting.ts";
import { stock } from "./en/stock.ts";
import { today } from "./en/today.ts";
import { warranty } from "./en/warranty.ts";
import { webhook } from "./en/webhook.ts";
import { workingHours } from "./en/working-hours.ts";
import { TABLET_ENGLISH } from "./tablet-english.ts";

export const ENGLISH = {
  ...absences,
  ...access,
  ...account,
  ...bank,
  ...begin,
  ...calendar,
  ...apiKeys,
  ...concessions,
  ...crews,
  ...diary,
  ...imports,
  ...firm,
  ...due,
  ...editor,
  ...evidence,
  ...fleet,
  ...frame,
  ...handover,
  ...held,
  ...home,
  ...job,
  ...jobList,
  ...jobRecord,
  ...kit,
  ...looks,
  ...mail,
  ...models,
  ...audits,
  ...nonconformance,
  ...warranty,
  ...notice,
  ...operation,
  ...outbox,
  ...papers,
  ...people,
  ...plans,
  ...privacy,
  ...qualifications,
  ...recurring,
  ...registry,
  ...registryKit,
  ...registrySite,
  ...releases,
  ...rounds,
  ...search,
  ...session,
  ...siting,
  ...stock,
  ...today,
  ...webhook,
  ...workingHours,
  ...TABLET_ENGLISH,
} as const;

export type MessageKey = keyof typeof ENGLISH;
