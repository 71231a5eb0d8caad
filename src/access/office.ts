import type { AccessRule } from "../web/access.ts";

/** The firm and its day: people, places, jobs and their visits. */
export const OFFICE_ACCESS: Record<string, AccessRule> = {
  // People
  listPeople: ["owner", "office", "manager", "auditor"],
  addPerson: ["owner"],
  readPerson: ["owner", "office", "manager", "auditor"],
  editPerson: ["owner"],
  setOwnPassword: "everyone",
  resetPassword: ["owner"],

  // Crews
  listCrews: "everyone",
  addCrew: ["owner", "office"],
  readCrew: "everyone",
  editCrew: ["owner", "office"],
  putCrewMembers: ["owner", "office"],

  // Customers
  listCustomers: ["owner", "office", "manager", "auditor"],
  addCustomer: ["owner", "office"],
  readCustomer: ["owner", "office", "manager", "auditor"],
  editCustomer: ["owner", "office"],

  // Sites
  listSites: "everyone",
  addSite: ["owner", "office"],
  readSite: "everyone",
  editSite: ["owner", "office"],

  // Siting
  readSurvey: "everyone",
  putSurvey: ["owner", "office", "installer", "manager"],
  listSurveyVersions: "everyone",
  readSurveyVersion: "everyone",
  readSiting: "everyone",
  drawSiting: "everyone",
  trySiting: "everyone",
  listRulePacks: "everyone",
  addRulePack: ["owner", "manager"],
  readRulePack: "everyone",
  putRulePack: ["owner", "manager"],
  listRulePackVersions: "everyone",
  readRulePackVersion: "everyone",

  // Holidays
  listHolidays: "everyone",
  countBusinessDays: "everyone",

  // Jobs
  listJobs: "everyone",
  openJob: ["owner", "office", "manager"],
  readJob: "everyone",
  editJob: ["owner", "office", "manager"],
  cancelJob: ["owner", "office", "manager"],
  addJobUnit: ["owner", "office", "manager"],
  removeJobUnit: ["owner", "office", "manager"],
  captureSerial: ["owner", "office", "manager", "installer"],

  // Kit
  readJobKit: "everyone",
  tickKitLine: ["owner", "office", "manager", "installer"],
  undoKitTick: ["owner", "office", "manager", "installer"],

  // Visits
  listVisits: "everyone",
  bookVisit: ["owner", "office", "manager"],
  readVisit: "everyone",
  moveVisit: ["owner", "office", "manager"],
  readCalendarAddress: "everyone",
  makeCalendarAddress: "everyone",
  endCalendarAddress: "everyone",
  cancelVisit: ["owner", "office", "manager"],

  // Diary
  readDiary: "everyone",
  listUnplacedJobs: ["owner", "office", "manager", "auditor"],
  suggestFirstFree: ["owner", "office", "manager"],
  listQualificationKinds: "everyone",
  addQualificationKind: ["owner", "office", "manager"],
  readQualificationKind: "everyone",
  editQualificationKind: ["owner", "office", "manager"],
  listQualifications: "everyone",
  recordQualification: ["owner", "office", "manager"],
  readQualification: "everyone",
  editQualification: ["owner", "office", "manager"],
  removeQualification: ["owner", "office", "manager"],
  listQualificationRequirements: "everyone",
  addQualificationRequirement: ["owner", "manager"],
  removeQualificationRequirement: ["owner", "manager"],
  listAbsences: ["owner", "office", "manager"],
  enterAbsence: ["owner", "office", "manager"],
  readAbsence: ["owner", "office", "manager"],
  editAbsence: ["owner", "office", "manager"],
  removeAbsence: ["owner", "office", "manager"],
  readWorkingHours: "everyone",
  putWorkingHours: ["owner", "office"],
  readPersonHours: "everyone",
  putPersonHours: ["owner", "office"],
  readVisitHours: "everyone",
  putVisitHours: ["owner", "office"],
  visitHoursPage: "everyone",
  putVisitHoursForm: ["owner", "office"],
  listRecurringInspections: "everyone",
  startRecurringInspection: ["owner", "office", "manager"],
  readRecurringInspection: "everyone",
  editRecurringInspection: ["owner", "office", "manager"],

  // Snags
  listSnags: "everyone",
  listJobSnags: "everyone",
  raiseSnag: ["owner", "office", "manager", "installer"],
  readSnag: "everyone",
  editSnag: ["owner", "office", "manager", "installer"],
  followUpSnag: ["owner", "office", "manager"],
  mendSnag: ["owner", "office", "manager", "installer"],

  // Notices and mail
  listNotices: ["owner", "office", "manager", "auditor"],
  listDueListRecords: ["owner", "office", "manager", "auditor"],
  readDueListRecord: ["owner", "office", "manager", "auditor"],
  listMails: ["owner", "office", "manager"],
  readMail: ["owner", "office", "manager"],
  readMailMessage: ["owner", "office", "manager"],
  resendMail: ["owner", "office"],
  attemptMail: ["owner", "office"],
  holdMail: ["owner", "office"],
  releaseMail: ["owner", "office"],
  cancelMail: ["owner", "office"],
  markMailSent: ["owner", "office"],
  takeMailBounce: ["owner", "office"],
  listFailingAddresses: ["owner", "office", "manager"],
  mendFailingAddress: ["owner", "office"],
  readMailSettings: ["owner", "office", "manager"],
  editMailSettings: ["owner", "office"],
  listVisitTellings: ["owner", "office", "manager"],
  dropVisitTelling: ["owner", "office"],
};
