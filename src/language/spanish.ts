// Every text in Spanish: the same areas as in english.ts.
import type { MessageKey } from "./english.ts";
import { absences } from "./es/absences.ts";
import { access } from "./es/access.ts";
import { account } from "./es/account.ts";
import { apiKeys } from "./es/api-keys.ts";
import { audits } from "./es/audits.ts";
import { bank } from "./es/bank.ts";
import { begin } from "./es/begin.ts";
import { calendar } from "./es/calendar.ts";
import { concessions } from "./es/concessions.ts";
import { crews } from "./es/crews.ts";
import { diary } from "./es/diary.ts";
import { due } from "./es/due.ts";
import { editor } from "./es/editor.ts";
import { evidence } from "./es/evidence.ts";
import { firm } from "./es/firm.ts";
import { fleet } from "./es/fleet.ts";
import { frame } from "./es/frame.ts";
import { handover } from "./es/handover.ts";
import { held } from "./es/held.ts";
import { home } from "./es/home.ts";
import { imports } from "./es/imports.ts";
import { job } from "./es/job.ts";
import { jobList } from "./es/job-list.ts";
import { jobRecord } from "./es/job-record.ts";
import { kit } from "./es/kit.ts";
import { looks } from "./es/looks.ts";
import { mail } from "./es/mail.ts";
import { models } from "./es/models.ts";
import { nonconformance } from "./es/nonconformance.ts";
import { notice } from "./es/notice.ts";
import { operation } from "./es/operation.ts";
import { outbox } from "./es/outbox.ts";
import { papers } from "./es/papers.ts";
import { people } from "./es/people.ts";
import { plans } from "./es/plans.ts";
import { privacy } from "./es/privacy.ts";
import { qualifications } from "./es/qualifications.ts";
import { recurring } from "./es/recurring.ts";
import { registry } from "./es/registry.ts";
import { registryKit } from "./es/registry-kit.ts";
import { registrySite } from "./es/registry-site.ts";
import { releases } from "./es/releases.ts";
import { rounds } from "./es/rounds.ts";
import { search } from "./es/search.ts";
import { session } from "./es/session.ts";
import { siting } from "./es/siting.ts";
import { stock } from "./es/stock.ts";
import { today } from "./es/today.ts";
import { warranty } from "./es/warranty.ts";
import { webhook } from "./es/webhook.ts";
import { workingHours } from "./es/working-hours.ts";
import { TABLET_SPANISH } from "./tablet-spanish.ts";

export const SPANISH: Readonly<Record<MessageKey, string>> = {
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
  ...TABLET_SPANISH,
};
