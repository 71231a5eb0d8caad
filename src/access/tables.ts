import type { AccessRule } from "../web/access.ts";

const OFFICE = ["owner", "office"] as const;
const READERS = ["owner", "office", "manager"] as const;
const RECORD_READERS = ["owner", "office", "manager", "auditor"] as const;

/** Tables that come in from files, and lists that leave as files. */
export const TABLE_ACCESS: Record<string, AccessRule> = {
  importsPage: READERS,
  addImportForm: OFFICE,
  importExample: READERS,
  importPage: READERS,
  tryImportForm: OFFICE,
  confirmImportForm: OFFICE,
  cancelImportForm: OFFICE,
  listImports: READERS,
  addImport: OFFICE,
  readImport: READERS,
  listImportFields: "everyone",
  putImportFile: OFFICE,
  tryImport: OFFICE,
  confirmImport: OFFICE,
  cancelImport: OFFICE,
  listBadRows: READERS,
  readRejects: READERS,

  // A list is taken away by whoever may read it.
  exportCustomers: RECORD_READERS,
  exportSites: "everyone",
  exportUnits: "everyone",
  exportInstruments: "everyone",
  exportPeople: RECORD_READERS,
  exportJobs: "everyone",
  exportVisits: "everyone",
  exportDueList: "everyone",
  exportSnags: "everyone",
  exportConcessions: "everyone",
  exportNotices: RECORD_READERS,
  exportNonconformances: RECORD_READERS,
  exportStockUnits: "everyone",
  exportProductModels: "everyone",
  exportPlans: "everyone",
  exportCrews: "everyone",
  exportConsumables: "everyone",
  exportQualifications: "everyone",
  exportAbsences: ["owner", "office", "manager"],
  exportRecurringInspections: "everyone",
  exportWarranties: RECORD_READERS,
  exportKeptAuditSample: ["owner", "office", "manager", "auditor"],
  exportAuditSample: ["owner", "office", "manager", "auditor"],
  exportUpdateRounds: ["owner", "office", "manager", "auditor"],
  exportMails: READERS,
  exportFirmwareReleases: "everyone",
  listExports: ["owner", "manager", "auditor"],
};
