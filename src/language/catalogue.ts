// Every text of the pages and mails, by its key. An area has one file in each language.
import { absences } from "./en/absences.ts";
import { account } from "./en/account.ts";
import { apiKeys } from "./en/api-keys.ts";
import { audits } from "./en/audits.ts";
import { bank } from "./en/bank.ts";
import { begin } from "./en/begin.ts";
import { calendar } from "./en/calendar.ts";
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
import { mail } from "./en/mail.ts";
import { models } from "./en/models.ts";
import { nonconformance } from "./en/nonconformance.ts";
import { notice } from "./en/notice.ts";
import { outbox } from "./en/outbox.ts";
import { papers } from "./en/papers.ts";
import { people } from "./en/people.ts";
import { plans } from "./en/plans.ts";
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
import { absences as absencesEs } from "./es/absences.ts";
import { account as accountEs } from "./es/account.ts";
import { apiKeys as apiKeysEs } from "./es/api-keys.ts";
import { audits as auditsEs } from "./es/audits.ts";
import { bank as bankEs } from "./es/bank.ts";
import { begin as beginEs } from "./es/begin.ts";
import { calendar as calendarEs } from "./es/calendar.ts";
import { crews as crewsEs } from "./es/crews.ts";
import { diary as diaryEs } from "./es/diary.ts";
import { due as dueEs } from "./es/due.ts";
import { editor as editorEs } from "./es/editor.ts";
import { evidence as evidenceEs } from "./es/evidence.ts";
import { firm as firmEs } from "./es/firm.ts";
import { fleet as fleetEs } from "./es/fleet.ts";
import { frame as frameEs } from "./es/frame.ts";
import { handover as handoverEs } from "./es/handover.ts";
import { held as heldEs } from "./es/held.ts";
import { home as homeEs } from "./es/home.ts";
import { imports as importsEs } from "./es/imports.ts";
import { job as jobEs } from "./es/job.ts";
import { jobList as jobListEs } from "./es/job-list.ts";
import { jobRecord as jobRecordEs } from "./es/job-record.ts";
import { kit as kitEs } from "./es/kit.ts";
import { mail as mailEs } from "./es/mail.ts";
import { models as modelsEs } from "./es/models.ts";
import { nonconformance as nonconformanceEs } from "./es/nonconformance.ts";
import { notice as noticeEs } from "./es/notice.ts";
import { outbox as outboxEs } from "./es/outbox.ts";
import { papers as papersEs } from "./es/papers.ts";
import { people as peopleEs } from "./es/people.ts";
import { plans as plansEs } from "./es/plans.ts";
import { qualifications as qualificationsEs } from "./es/qualifications.ts";
import { recurring as recurringEs } from "./es/recurring.ts";
import { registry as registryEs } from "./es/registry.ts";
import { registryKit as registryKitEs } from "./es/registry-kit.ts";
import { registrySite as registrySiteEs } from "./es/registry-site.ts";
import { releases as releasesEs } from "./es/releases.ts";
import { rounds as roundsEs } from "./es/rounds.ts";
import { search as searchEs } from "./es/search.ts";
import { session as sessionEs } from "./es/session.ts";
import { siting as sitingEs } from "./es/siting.ts";
import { stock as stockEs } from "./es/stock.ts";
import { today as todayEs } from "./es/today.ts";
import { warranty as warrantyEs } from "./es/warranty.ts";
import { webhook as webhookEs } from "./es/webhook.ts";
import { workingHours as workingHoursEs } from "./es/working-hours.ts";
import type { Language } from "./languages.ts";

const EN = {
  ...absences,
  ...account,
  ...bank,
  ...begin,
  ...calendar,
  ...apiKeys,
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
  ...mail,
  ...models,
  ...audits,
  ...nonconformance,
  ...warranty,
  ...notice,
  ...outbox,
  ...papers,
  ...people,
  ...plans,
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
} as const;

export type MessageKey = keyof typeof EN;

const ES: Readonly<Record<MessageKey, string>> = {
  ...absencesEs,
  ...accountEs,
  ...bankEs,
  ...beginEs,
  ...calendarEs,
  ...apiKeysEs,
  ...crewsEs,
  ...diaryEs,
  ...importsEs,
  ...firmEs,
  ...dueEs,
  ...editorEs,
  ...evidenceEs,
  ...fleetEs,
  ...frameEs,
  ...handoverEs,
  ...heldEs,
  ...homeEs,
  ...jobEs,
  ...jobListEs,
  ...jobRecordEs,
  ...kitEs,
  ...mailEs,
  ...modelsEs,
  ...auditsEs,
  ...nonconformanceEs,
  ...warrantyEs,
  ...noticeEs,
  ...outboxEs,
  ...papersEs,
  ...peopleEs,
  ...plansEs,
  ...qualificationsEs,
  ...recurringEs,
  ...registryEs,
  ...registryKitEs,
  ...registrySiteEs,
  ...releasesEs,
  ...roundsEs,
  ...searchEs,
  ...sessionEs,
  ...sitingEs,
  ...stockEs,
  ...todayEs,
  ...webhookEs,
  ...workingHoursEs,
};

export const CATALOGUE: Readonly<Record<Language, Readonly<Record<MessageKey, string>>>> = {
  en: EN,
  es: ES,
};
