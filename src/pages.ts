// Every page, by what it is about.
import { absencePages } from "./features/absences/pages.ts";
import { apiKeyPages } from "./features/api-keys/pages.ts";
import { auditAccessPages } from "./features/audit-access/pages.ts";
import { auditLookPages } from "./features/audit-looks/pages.ts";
import { auditPages } from "./features/audits/pages.ts";
import { auditSamplePages } from "./features/audits/sample-pages.ts";
import { bankPages } from "./features/banks/pages.ts";
import { calendarPages } from "./features/calendar/pages.ts";
import { changePages } from "./features/changes/pages.ts";
import { checkPages } from "./features/check/pages.ts";
import { concessionPages } from "./features/concessions/pages.ts";
import { crewPages } from "./features/crews/pages.ts";
import { customerDetailPages } from "./features/customers/customer-pages.ts";
import { customerPages } from "./features/customers/pages.ts";
import { diaryPages } from "./features/diary/pages.ts";
import { evidenceExportPages } from "./features/evidence-exports/pages.ts";
import { firmPages } from "./features/firms/pages.ts";
import { firmwarePages } from "./features/firmware/pages.ts";
import { firmwareReleasePages } from "./features/firmware/release-pages.ts";
import { firmwareRingPages } from "./features/firmware/ring-pages.ts";
import { firstRunPages } from "./features/first-run/pages.ts";
import { fleetPages } from "./features/fleet/pages.ts";
import { handoverLinkPages } from "./features/handover-links/pages.ts";
import { handoverPublicPages } from "./features/handover-links/public-pages.ts";
import { homePages } from "./features/home/pages.ts";
import { importDetailPages } from "./features/imports/import-pages.ts";
import { importPages } from "./features/imports/pages.ts";
import { instrumentDetailPages } from "./features/instruments/instrument-pages.ts";
import { instrumentPages } from "./features/instruments/pages.ts";
import { invitationPages } from "./features/invitations/pages.ts";
import { jobListPages } from "./features/job-list/pages.ts";
import { jobDocumentPages } from "./features/job-page/document-pages.ts";
import { jobPages } from "./features/job-page/pages.ts";
import { jobRecordPages } from "./features/job-page/record-pages.ts";
import { snagPages } from "./features/job-page/snag-pages.ts";
import { jobVisitPages } from "./features/job-page/visit-pages.ts";
import { kitPages } from "./features/kit/pages.ts";
import { outboxPages } from "./features/mail/pages.ts";
import { mailSettingsPages } from "./features/mail/settings-pages.ts";
import { mergePages } from "./features/merges/pages.ts";
import { messagePages } from "./features/messages/pages.ts";
import { newJobPages } from "./features/new-job/pages.ts";
import { nonconformanceOnePages } from "./features/nonconformances/one-pages.ts";
import { nonconformancePages } from "./features/nonconformances/pages.ts";
import { noticePages } from "./features/notices/pages.ts";
import { batteryPassportPages } from "./features/passports/pages.ts";
import { accountPages } from "./features/people/account-pages.ts";
import { peoplePages } from "./features/people/pages.ts";
import { personPages } from "./features/people/person-pages.ts";
import { planItemPages } from "./features/plan-editor/item-pages.ts";
import { planKitPages } from "./features/plan-editor/kit-pages.ts";
import { planEditorPages } from "./features/plan-editor/plan-pages.ts";
import { planTrialPages } from "./features/plan-editor/trial-pages.ts";
import { planPages } from "./features/plans/pages.ts";
import { erasurePages } from "./features/privacy/erasure-pages.ts";
import { privacyPages } from "./features/privacy/pages.ts";
import { productModelPages } from "./features/product-models/pages.ts";
import { qualificationPages } from "./features/qualifications/pages.ts";
import { qualificationRulePages } from "./features/qualifications/rule-pages.ts";
import { recurringFormPages } from "./features/recurring-inspections/form-pages.ts";
import { recurringInspectionPages } from "./features/recurring-inspections/pages.ts";
import { roundPages } from "./features/rounds/pages.ts";
import { searchPages } from "./features/search/pages.ts";
import { sessionPages } from "./features/session/pages.ts";
import { siteFormPages } from "./features/sites/form-pages.ts";
import { sitePages } from "./features/sites/pages.ts";
import { siteDetailPages } from "./features/sites/site-pages.ts";
import { consumablePages } from "./features/stock/consumable-pages.ts";
import { goodsInPages } from "./features/stock/goods-in-pages.ts";
import { missingPages } from "./features/stock/missing-pages.ts";
import { stockPages } from "./features/stock/stock-pages.ts";
import { surveyPages } from "./features/surveys/pages.ts";
import { heldPages } from "./features/tablet/held-pages.ts";
import { todayPages } from "./features/today/pages.ts";
import { twoStepPages } from "./features/two-step/pages.ts";
import { unitPages } from "./features/units/pages.ts";
import { unitDetailPages } from "./features/units/unit-pages.ts";
import { visitHoursPages } from "./features/visit-hours/pages.ts";
import { warrantyCalendarPages } from "./features/warranty/calendar-pages.ts";
import { warrantyClaimPages } from "./features/warranty/claim-pages.ts";
import { oneClaimPages } from "./features/warranty/one-claim-pages.ts";
import { warrantyPages } from "./features/warranty/pages.ts";
import { warrantyReadingPages } from "./features/warranty/reading-pages.ts";
import { warrantyTermsPages } from "./features/warranty/terms-pages.ts";
import { unitWarrantyPages } from "./features/warranty/unit-pages.ts";
import { webhookDeliveryPages } from "./features/webhooks/delivery-pages.ts";
import { webhookPages } from "./features/webhooks/pages.ts";
import { workingHoursPages } from "./features/working-hours/pages.ts";
import type { Feature } from "./web/feature.ts";

export const PAGES: readonly Feature[] = [
  sessionPages,
  customerPages,
  customerDetailPages,
  searchPages,
  changePages,
  mergePages,
  homePages,
  sitePages,
  siteFormPages,
  siteDetailPages,
  unitPages,
  unitDetailPages,
  instrumentPages,
  instrumentDetailPages,
  auditAccessPages,
  auditPages,
  auditLookPages,
  auditSamplePages,
  concessionPages,
  nonconformancePages,
  nonconformanceOnePages,
  warrantyPages,
  warrantyClaimPages,
  oneClaimPages,
  warrantyCalendarPages,
  warrantyReadingPages,
  batteryPassportPages,
  privacyPages,
  erasurePages,
  unitWarrantyPages,
  warrantyTermsPages,
  firmwareReleasePages,
  firmwareRingPages,
  noticePages,
  outboxPages,
  mailSettingsPages,
  checkPages,
  diaryPages,
  importPages,
  importDetailPages,
  firmPages,
  apiKeyPages,
  webhookPages,
  webhookDeliveryPages,
  firmwarePages,
  evidenceExportPages,
  fleetPages,
  roundPages,
  visitHoursPages,
  todayPages,
  jobPages,
  handoverLinkPages,
  handoverPublicPages,
  surveyPages,
  bankPages,
  peoplePages,
  personPages,
  accountPages,
  invitationPages,
  twoStepPages,
  planPages,
  planEditorPages,
  planItemPages,
  planKitPages,
  planTrialPages,
  calendarPages,
  heldPages,
  crewPages,
  absencePages,
  recurringFormPages,
  recurringInspectionPages,
  qualificationPages,
  qualificationRulePages,
  workingHoursPages,
  productModelPages,
  firstRunPages,
  jobDocumentPages,
  jobRecordPages,
  jobListPages,
  newJobPages,
  snagPages,
  jobVisitPages,
  kitPages,
  goodsInPages,
  stockPages,
  consumablePages,
  missingPages,
  messagePages,
];
