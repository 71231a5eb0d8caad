// The whole system at a glance: what a newcomer reads first. Its pages are listed in pages.ts.
import { absenceRoutes } from "./features/absences/routes.ts";
import { answerRoutes } from "./features/answers/routes.ts";
import { apiKeyRoutes } from "./features/api-keys/routes.ts";
import { bankRoutes } from "./features/banks/routes.ts";
import { bankSettingsRoutes } from "./features/banks/settings-routes.ts";
import { calculationRoutes } from "./features/calculations/routes.ts";
import { tighteningRoutes } from "./features/calculations/tightening-routes.ts";
import { calendarRoutes } from "./features/calendar/routes.ts";
import { changeRoutes } from "./features/changes/routes.ts";
import { closeOutRoutes } from "./features/close-out/routes.ts";
import { concessionRegisterRoutes } from "./features/concessions/register-routes.ts";
import { concessionRoutes } from "./features/concessions/routes.ts";
import { crewRoutes } from "./features/crews/routes.ts";
import { customerRoutes } from "./features/customers/routes.ts";
import { diaryRoutes } from "./features/diary/routes.ts";
import { documentRoutes } from "./features/documents/routes.ts";
import { evidenceKeyRoutes } from "./features/evidence/key-routes.ts";
import { evidenceRoutes } from "./features/evidence/routes.ts";
import { evidenceExportRoutes } from "./features/evidence-exports/routes.ts";
import { exportRoutes } from "./features/exports/routes.ts";
import { firmRoutes } from "./features/firms/routes.ts";
import { firmwareDueRoutes } from "./features/firmware/due-routes.ts";
import { firmwareReadingRoutes } from "./features/firmware/reading-routes.ts";
import { firmwareRingRoutes } from "./features/firmware/ring-routes.ts";
import { firmwareRolloutRoutes } from "./features/firmware/rollout-routes.ts";
import { firmwareRoutes } from "./features/firmware/routes.ts";
import { firmwareStepRoutes } from "./features/firmware/steps-routes.ts";
import { firmwareTargetRoutes } from "./features/firmware/target-routes.ts";
import { fleetRoutes } from "./features/fleet/routes.ts";
import { handoverLinkRoutes } from "./features/handover-links/routes.ts";
import { holidayRoutes } from "./features/holidays/routes.ts";
import { importRoutes } from "./features/imports/routes.ts";
import { importStepRoutes } from "./features/imports/step-routes.ts";
import { affectedReadingRoutes } from "./features/instruments/affected-routes.ts";
import { instrumentEventRoutes } from "./features/instruments/event-routes.ts";
import { instrumentRoutes } from "./features/instruments/routes.ts";
import { jobRoutes } from "./features/jobs/routes.ts";
import { jobUnitRoutes } from "./features/jobs/unit-routes.ts";
import { kitRoutes } from "./features/kit/routes.ts";
import { ledgerCheckpointRoutes } from "./features/ledger/checkpoint-routes.ts";
import { ledgerRoutes } from "./features/ledger/routes.ts";
import { mailBounceRoutes } from "./features/mail/bounce-routes.ts";
import { mailRoutes } from "./features/mail/routes.ts";
import { mailSettingsRoutes } from "./features/mail/settings-routes.ts";
import { mergeRoutes } from "./features/merges/routes.ts";
import { messageRoutes } from "./features/messages/routes.ts";
import { effectCheckRoutes } from "./features/nonconformances/effect-routes.ts";
import { nonconformanceRoutes } from "./features/nonconformances/routes.ts";
import { noticeRoutes } from "./features/notices/routes.ts";
import { operationRoutes } from "./features/operation/routes.ts";
import { paperRoutes } from "./features/papers/routes.ts";
import { batteryPassportRoutes } from "./features/passports/routes.ts";
import { peopleRoutes } from "./features/people/routes.ts";
import { photoRoutes } from "./features/photos/routes.ts";
import { planDiffRoutes } from "./features/plans/diff-routes.ts";
import { planRoutes } from "./features/plans/routes.ts";
import { starterPlanRoutes } from "./features/plans/starter-routes.ts";
import { planTrialRoutes } from "./features/plans/trial-routes.ts";
import { planVersionRoutes } from "./features/plans/version-routes.ts";
import { privacyRoutes } from "./features/privacy/routes.ts";
import { productModelRoutes } from "./features/product-models/routes.ts";
import { qualificationKindRoutes } from "./features/qualifications/kind-routes.ts";
import { qualificationRequirementRoutes } from "./features/qualifications/requirement-routes.ts";
import { qualificationRoutes } from "./features/qualifications/routes.ts";
import { recurringInspectionRoutes } from "./features/recurring-inspections/routes.ts";
import { roundRoutes } from "./features/rounds/routes.ts";
import { rulePackRoutes } from "./features/rule-packs/routes.ts";
import { rulePackVersionRoutes } from "./features/rule-packs/version-routes.ts";
import { searchRoutes } from "./features/search/routes.ts";
import { sessionRoutes } from "./features/session/routes.ts";
import { siteRoutes } from "./features/sites/routes.ts";
import { snagRoutes } from "./features/snags/routes.ts";
import { consumableRoutes } from "./features/stock/consumable-routes.ts";
import { missingRoutes } from "./features/stock/missing-routes.ts";
import { stockRoutes } from "./features/stock/routes.ts";
import { surveyRoutes } from "./features/surveys/routes.ts";
import { sitingRoutes } from "./features/surveys/siting-routes.ts";
import { differenceRoutes } from "./features/tablet/difference-routes.ts";
import { heldRoutes } from "./features/tablet/held-routes.ts";
import { tabletOpRoutes } from "./features/tablet/ops-routes.ts";
import { outboxRoutes } from "./features/tablet/outbox-routes.ts";
import { packetRoutes } from "./features/tablet/packet-routes.ts";
import { photoUploadRoutes } from "./features/tablet/photo-upload-routes.ts";
import { quarantineRoutes } from "./features/tablet/quarantine-routes.ts";
import { shellRoutes } from "./features/tablet/shell-routes.ts";
import { twoStepRoutes } from "./features/two-step/routes.ts";
import { unitRoutes } from "./features/units/routes.ts";
import { visitHoursRoutes } from "./features/visit-hours/routes.ts";
import { visitMailRoutes } from "./features/visit-mails/routes.ts";
import { visitRoutes } from "./features/visits/routes.ts";
import { warrantyCalendarRoutes } from "./features/warranty/calendar-routes.ts";
import { claimEvidenceRoutes } from "./features/warranty/claim-evidence-routes.ts";
import { warrantyClaimRoutes } from "./features/warranty/claim-routes.ts";
import { warrantyRoutes } from "./features/warranty/routes.ts";
import { warrantyTermsRoutes } from "./features/warranty/terms-routes.ts";
import { webhookRoutes } from "./features/webhooks/routes.ts";
import { workingHoursRoutes } from "./features/working-hours/routes.ts";
import type { Feature } from "./web/feature.ts";

export const FEATURES: readonly Feature[] = [
  // First: it counts the requests of all that follow.
  operationRoutes,
  sessionRoutes,
  customerRoutes,
  searchRoutes,
  changeRoutes,
  mergeRoutes,
  photoRoutes,
  answerRoutes,
  concessionRoutes,
  concessionRegisterRoutes,
  closeOutRoutes,
  ledgerRoutes,
  ledgerCheckpointRoutes,
  evidenceRoutes,
  evidenceExportRoutes,
  evidenceKeyRoutes,
  paperRoutes,
  handoverLinkRoutes,
  firmwareRoutes,
  firmwareTargetRoutes,
  firmRoutes,
  firmwareRingRoutes,
  firmwareRolloutRoutes,
  firmwareStepRoutes,
  nonconformanceRoutes,
  effectCheckRoutes,
  warrantyRoutes,
  privacyRoutes,
  warrantyTermsRoutes,
  warrantyClaimRoutes,
  claimEvidenceRoutes,
  warrantyCalendarRoutes,
  batteryPassportRoutes,
  firmwareReadingRoutes,
  noticeRoutes,
  mailRoutes,
  mailBounceRoutes,
  mailSettingsRoutes,
  visitMailRoutes,
  firmwareDueRoutes,
  fleetRoutes,
  apiKeyRoutes,
  webhookRoutes,
  roundRoutes,
  visitHoursRoutes,
  calculationRoutes,
  tighteningRoutes,
  peopleRoutes,
  twoStepRoutes,
  crewRoutes,
  siteRoutes,
  productModelRoutes,
  unitRoutes,
  bankRoutes,
  bankSettingsRoutes,
  surveyRoutes,
  sitingRoutes,
  rulePackRoutes,
  rulePackVersionRoutes,
  holidayRoutes,
  instrumentRoutes,
  instrumentEventRoutes,
  affectedReadingRoutes,
  planRoutes,
  planVersionRoutes,
  starterPlanRoutes,
  planTrialRoutes,
  planDiffRoutes,
  jobRoutes,
  jobUnitRoutes,
  visitRoutes,
  diaryRoutes,
  absenceRoutes,
  workingHoursRoutes,
  recurringInspectionRoutes,
  qualificationKindRoutes,
  qualificationRoutes,
  qualificationRequirementRoutes,
  calendarRoutes,
  snagRoutes,
  packetRoutes,
  photoUploadRoutes,
  tabletOpRoutes,
  heldRoutes,
  differenceRoutes,
  quarantineRoutes,
  outboxRoutes,
  shellRoutes,
  messageRoutes,
  documentRoutes,
  stockRoutes,
  consumableRoutes,
  missingRoutes,
  kitRoutes,
  importRoutes,
  importStepRoutes,
  exportRoutes,
];
