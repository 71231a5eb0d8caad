// The whole system at a glance: what a newcomer reads first.
import { answerRoutes } from "./features/answers/routes.ts";
import { bankPages } from "./features/banks/pages.ts";
import { bankRoutes } from "./features/banks/routes.ts";
import { bankSettingsRoutes } from "./features/banks/settings-routes.ts";
import { calculationRoutes } from "./features/calculations/routes.ts";
import { tighteningRoutes } from "./features/calculations/tightening-routes.ts";
import { jobPages } from "./features/close-out/pages.ts";
import { closeOutRoutes } from "./features/close-out/routes.ts";
import { concessionRoutes } from "./features/concessions/routes.ts";
import { crewPages } from "./features/crews/pages.ts";
import { crewRoutes } from "./features/crews/routes.ts";
import { customerRoutes } from "./features/customers/routes.ts";
import { evidenceKeyRoutes } from "./features/evidence/key-routes.ts";
import { evidenceRoutes } from "./features/evidence/routes.ts";
import { firmwareDueRoutes } from "./features/firmware/due-routes.ts";
import { firmwarePages } from "./features/firmware/pages.ts";
import { firmwareReadingRoutes } from "./features/firmware/reading-routes.ts";
import { firmwareRoutes } from "./features/firmware/routes.ts";
import { firmwareTargetRoutes } from "./features/firmware/target-routes.ts";
import { firstRunPages } from "./features/first-run/pages.ts";
import { fleetPages } from "./features/fleet/pages.ts";
import { holidayRoutes } from "./features/holidays/routes.ts";
import { affectedReadingRoutes } from "./features/instruments/affected-routes.ts";
import { instrumentEventRoutes } from "./features/instruments/event-routes.ts";
import { instrumentRoutes } from "./features/instruments/routes.ts";
import { jobRoutes } from "./features/jobs/routes.ts";
import { jobUnitRoutes } from "./features/jobs/unit-routes.ts";
import { ledgerCheckpointRoutes } from "./features/ledger/checkpoint-routes.ts";
import { ledgerRoutes } from "./features/ledger/routes.ts";
import { mailRoutes } from "./features/mail/routes.ts";
import { noticeRoutes } from "./features/notices/routes.ts";
import { peopleRoutes } from "./features/people/routes.ts";
import { photoRoutes } from "./features/photos/routes.ts";
import { planItemPages } from "./features/plan-editor/item-pages.ts";
import { planEditorPages } from "./features/plan-editor/plan-pages.ts";
import { planTrialPages } from "./features/plan-editor/trial-pages.ts";
import { planDiffRoutes } from "./features/plans/diff-routes.ts";
import { planPages } from "./features/plans/pages.ts";
import { planRoutes } from "./features/plans/routes.ts";
import { starterPlanRoutes } from "./features/plans/starter-routes.ts";
import { planTrialRoutes } from "./features/plans/trial-routes.ts";
import { planVersionRoutes } from "./features/plans/version-routes.ts";
import { productModelPages } from "./features/product-models/pages.ts";
import { productModelRoutes } from "./features/product-models/routes.ts";
import { roundPages } from "./features/rounds/pages.ts";
import { roundRoutes } from "./features/rounds/routes.ts";
import { rulePackRoutes } from "./features/rule-packs/routes.ts";
import { rulePackVersionRoutes } from "./features/rule-packs/version-routes.ts";
import { sessionPages } from "./features/session/pages.ts";
import { sessionRoutes } from "./features/session/routes.ts";
import { siteRoutes } from "./features/sites/routes.ts";
import { snagRoutes } from "./features/snags/routes.ts";
import { surveyPages } from "./features/surveys/pages.ts";
import { surveyRoutes } from "./features/surveys/routes.ts";
import { sitingRoutes } from "./features/surveys/siting-routes.ts";
import { differenceRoutes } from "./features/tablet/difference-routes.ts";
import { heldPages } from "./features/tablet/held-pages.ts";
import { heldRoutes } from "./features/tablet/held-routes.ts";
import { tabletOpRoutes } from "./features/tablet/ops-routes.ts";
import { outboxRoutes } from "./features/tablet/outbox-routes.ts";
import { packetRoutes } from "./features/tablet/packet-routes.ts";
import { photoUploadRoutes } from "./features/tablet/photo-upload-routes.ts";
import { quarantineRoutes } from "./features/tablet/quarantine-routes.ts";
import { shellRoutes } from "./features/tablet/shell-routes.ts";
import { todayPages } from "./features/today/pages.ts";
import { unitRoutes } from "./features/units/routes.ts";
import { visitRoutes } from "./features/visits/routes.ts";
import type { Feature } from "./web/feature.ts";

export const FEATURES: readonly Feature[] = [
  sessionRoutes,
  sessionPages,
  customerRoutes,
  photoRoutes,
  answerRoutes,
  concessionRoutes,
  closeOutRoutes,
  ledgerRoutes,
  ledgerCheckpointRoutes,
  evidenceRoutes,
  evidenceKeyRoutes,
  firmwareRoutes,
  firmwareTargetRoutes,
  firmwareReadingRoutes,
  noticeRoutes,
  mailRoutes,
  firmwareDueRoutes,
  firmwarePages,
  fleetPages,
  roundRoutes,
  roundPages,
  calculationRoutes,
  tighteningRoutes,
  todayPages,
  jobPages,
  surveyPages,
  bankPages,
  peopleRoutes,
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
  planPages,
  planEditorPages,
  planItemPages,
  planTrialPages,
  jobRoutes,
  jobUnitRoutes,
  visitRoutes,
  snagRoutes,
  packetRoutes,
  photoUploadRoutes,
  tabletOpRoutes,
  heldRoutes,
  heldPages,
  differenceRoutes,
  quarantineRoutes,
  outboxRoutes,
  shellRoutes,
  crewPages,
  productModelPages,
  firstRunPages,
];

/** Headings of the interface description. */
export const TAGS = [
  { name: "Session", description: "Signing in and out" },
  { name: "Customers", description: "Who the work is for" },
  { name: "Photos", description: "Pictures tied to a job's items" },
  { name: "Answers", description: "What was read, and the verdict on it" },
  { name: "Concessions", description: "Releasing what does not conform" },
  { name: "Close-out", description: "The gate, closing and reopening" },
  { name: "Ledger", description: "The append-only record of a job" },
  { name: "Evidence", description: "What others can check with their own tools" },
  { name: "People", description: "Who signs in, and with which roles" },
  { name: "Crews", description: "Installers who are sent out together" },
  { name: "Sites", description: "Where the work is" },
  { name: "Product models", description: "What kinds of unit there are" },
  { name: "Units", description: "Serial-numbered things and their lives" },
  { name: "Banks", description: "Packs that act as one battery" },
  { name: "Siting", description: "Surveys of where units are to stand, and what the rules say" },
  { name: "Rule packs", description: "Rules of location as data, with source and edition" },
  { name: "Holidays", description: "Public holidays and business days" },
  { name: "Instruments", description: "What readings are taken with, and their calibrations" },
  { name: "Plans", description: "Inspection and test plans and their versions" },
  { name: "Jobs", description: "The work at a site: its plan, its units, its end" },
  { name: "Visits", description: "Who goes when, with which instruments" },
  { name: "Snags", description: "Small things to be put right" },
  { name: "Firmware", description: "Releases, targets, levels and what is due" },
  { name: "Update rounds", description: "Day rounds for what is due, planned and accepted" },
  { name: "Notices", description: "What was recorded each morning, and who was told" },
  { name: "Mail", description: "The outbox" },
  { name: "Calculations", description: "Electrical and mechanical figures with their working" },
  { name: "Tablet", description: "What a tablet takes along, and what it sends" },
  { name: "Service", description: "Whether the service itself is well" },
];
