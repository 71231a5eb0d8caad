import type { AccessRule } from "../web/access.ts";

/** What is asked of the work, and what the work was. */
export const RECORD_ACCESS: Record<string, AccessRule> = {
  // Plans
  listPlans: "everyone",
  addPlan: ["owner", "manager"],
  readPlan: "everyone",
  editPlan: ["owner", "manager"],
  publishedPlanSchema: "everyone",
  checkPlan: "everyone",
  listPlanVersions: "everyone",
  addPlanVersion: ["owner", "manager"],
  readPlanVersion: "everyone",
  exportPlanDocument: "everyone",
  putPlanDocument: ["owner", "manager"],
  publishPlanVersion: ["owner", "manager"],
  listStarterPlans: "everyone",
  readStarterPlan: "everyone",
  tryPlan: ["owner", "office", "manager"],
  samplePlanTrial: ["owner", "office", "manager"],
  comparePlanVersions: "everyone",
  plansPage: ["owner", "office", "manager", "auditor"],
  planDiffPage: ["owner", "office", "manager", "auditor"],
  starterPlanForm: ["owner", "manager"],
  newPlanPage: ["owner", "manager"],
  newPlanForm: ["owner", "manager"],
  planPage: ["owner", "office", "manager", "auditor"],
  planVersionPage: ["owner", "office", "manager", "auditor"],
  planItemPage: ["owner", "office", "manager", "auditor"],
  newPlanVersionForm: ["owner", "manager"],
  editPlanForm: ["owner", "manager"],
  planItemForm: ["owner", "manager"],
  undoPlanEditForm: ["owner", "manager"],
  publishPlanForm: ["owner", "manager"],
  planTrialPage: ["owner", "office", "manager"],
  planKitPage: ["owner", "office", "manager", "auditor"],
  planKitForm: ["owner", "manager"],
  planTrialForm: ["owner", "office", "manager"],

  // Instruments
  listInstruments: "everyone",
  addInstrument: ["owner", "office"],
  readInstrument: "everyone",
  editInstrument: ["owner", "office"],
  addCalibration: ["owner", "office"],
  listInstrumentEvents: "everyone",
  recordInstrumentEvent: ["owner", "office", "manager", "installer"],
  listAffectedReadings: "everyone",
  openRetestJobs: ["owner", "office", "manager"],

  // The record of a job
  submitAnswers: ["installer", "manager"],
  listAnswers: "everyone",
  grantConcession: ["manager"],
  listConcessions: "everyone",
  revokeConcession: ["manager"],
  evaluateJob: "everyone",
  closeOutJob: ["installer", "office", "manager"],
  readCloseOut: "everyone",
  reopenJob: ["manager"],
  readLedger: "everyone",

  // Evidence
  exportEvidenceBag: ["auditor", "office", "manager", "owner"],
  readCertificates: "anyone",
  listEvidenceKeys: "everyone",
  replaceEvidenceKey: ["owner"],
  listLedgerCheckpoints: ["owner", "office", "manager", "auditor"],

  // Papers
  readCommissioningRecord: "everyone",
  readHandoverPack: "everyone",
  makeHandoverLink: ["owner", "office", "manager"],
  listHandoverLinks: ["owner", "office", "manager", "auditor"],
  endHandoverLink: ["owner", "office", "manager"],
  jobHandoverPage: ["owner", "office", "manager"],
  makeHandoverLinkForm: ["owner", "office", "manager"],
  endHandoverLinkForm: ["owner", "office", "manager"],
  handoverPage: "anyone",
  handoverPackByLink: "anyone",
  commissioningRecordByLink: "anyone",

  // Messages and documents
  writeMessage: ["owner", "office", "manager", "installer"],
  listMessages: "everyone",
  readMessagesSeen: "everyone",
  putMessagesSeen: "everyone",
  listUnreadMessages: "everyone",
  putDocument: ["owner", "office", "manager", "installer"],
  listDocuments: "everyone",
  readDocument: "everyone",
  removeDocument: ["owner", "office", "manager"],

  // Photos
  putPhoto: ["installer", "office", "manager"],
  listPhotos: "everyone",
  readPhoto: "everyone",

  // The tablet
  readTabletDay: ["installer", "office", "manager"],
  readPhotoUpload: ["installer", "office", "manager"],
  continuePhotoUpload: ["installer", "office", "manager"],
  readPacket: ["installer", "office", "manager"],

  // The tablet's operations
  sendTabletOps: ["installer", "office", "manager"],
  receiveOutboxFile: ["installer", "office", "manager"],
  listHeldOperations: ["office", "manager"],
  applyHeldOperation: ["office", "manager"],
  dismissHeldOperation: ["office", "manager"],
  heldPage: ["office", "manager"],
  applyHeldForm: ["office", "manager"],
  dismissHeldForm: ["office", "manager"],
  listDifferences: "everyone",
  listQuarantine: ["owner", "manager"],

  // Calculations
  listCalculations: "everyone",
  calculate: "everyone",
  planTightening: "everyone",
};
