// Whatever an auditor reads leaves a look, by itself: what belongs to a job on that job's ledger,
// all else in the firm's list. Only what is named here leaves none, each with its reason.

export type JobBy = "job" | "snag" | "visit" | "nonconformance";

/** Operations that show what a job's record states, and what their `id` names. */
export const ON_THE_LEDGER: Readonly<Record<string, JobBy>> = {
  ...{ readJob: "job", jobPage: "job", jobReadingsPage: "job", jobHistoryPage: "job" },
  ...{ jobPhotosPage: "job", jobPhotoPage: "job", listAnswers: "job", evaluateJob: "job" },
  ...{ readCloseOut: "job", listConcessions: "job", listDifferences: "job", listJobSnags: "job" },
  ...{ listPhotos: "job", readPhoto: "job", listDocuments: "job", readDocument: "job" },
  ...{ listMessages: "job", readLedger: "job", readCommissioningRecord: "job" },
  ...{ readHandoverPack: "job", readJobKit: "job", jobKitPage: "job", listHandoverLinks: "job" },
  ...{ readSnag: "snag", snagPage: "snag", readVisit: "visit" },
  ...{ readNonconformance: "nonconformance", nonconformancePage: "nonconformance" },
  listEffectChecks: "nonconformance",
};

const OWN = "it is the auditor's own: their account, their notices, what they have read";
const PUBLIC = "it is the product's or public, and tells nothing of the firm's work";

/** Operations that leave no look, and why. */
export const NEEDS_NONE: Readonly<Record<string, string>> = {
  exportEvidenceBag: "the export itself is on the job's ledger, with the head of the record",
  ...Object.fromEntries(
    [
      ...["accountPage", "twoStepPage", "calendarPage", "readCalendarAddress", "readSession"],
      ...["noticesPage", "listNotices", "readMessagesSeen"],
    ].map((operation) => [operation, OWN]),
  ),
  ...Object.fromEntries(
    [
      ...["publishedPlanSchema", "listStarterPlans", "readStarterPlan", "listCalculations"],
      ...["listHolidays", "listImportFields", "listEvidenceKeys", "readFirm", "readFirmMark"],
    ].map((operation) => [operation, PUBLIC]),
  ),
};
