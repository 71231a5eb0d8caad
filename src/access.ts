import type { AccessRule } from "./web/access.ts";

/**
 * Who may do what: every route by its operation, and nothing else. The server does not start
 * otherwise.
 */
export const ACCESS: Record<string, AccessRule> = {
  // Session
  signIn: "anyone",
  refreshSession: "anyone",
  readSession: "everyone",
  signOut: "everyone",
  signOutEverywhere: "everyone",
  signInPage: "anyone",
  signInForm: "anyone",
  signOutForm: "everyone",

  // Customers
  listCustomers: ["owner", "office", "manager", "auditor"],
  addCustomer: ["owner", "office"],
  readCustomer: ["owner", "office", "manager", "auditor"],
  editCustomer: ["owner", "office"],

  // Photos
  putPhoto: ["installer", "office", "manager"],
  listPhotos: "everyone",
  readPhoto: "everyone",

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

  // Firmware
  listFirmwareReleases: "everyone",
  addFirmwareRelease: ["owner", "manager"],
  readFirmwareRelease: "everyone",
  editFirmwareRelease: ["owner", "manager"],
  withdrawFirmwareRelease: ["owner", "manager"],
  readFirmwareTarget: "everyone",
  setFirmwareTarget: ["owner", "manager"],
  addFirmwareReading: ["installer", "office", "manager"],
  listFirmwareDue: "everyone",
  countFirmwareDue: "everyone",

  // Notices and mail
  listNotices: ["owner", "office", "manager", "auditor"],
  listDueListRecords: ["owner", "office", "manager", "auditor"],
  readDueListRecord: ["owner", "office", "manager", "auditor"],
  listMails: ["owner", "office", "manager"],
  resendMail: ["owner", "office"],

  // Calculations
  listCalculations: "everyone",
  calculate: "everyone",

  // Pages
  firmwareDuePage: "everyone",
  firstPage: "everyone",
  todayPage: "everyone",
  jobsPage: "everyone",
  jobPage: "everyone",
  closeOutForm: ["installer", "office", "manager"],
  concessionForm: ["manager"],
  reopeningForm: ["manager"],

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

  // Sites
  listSites: "everyone",
  addSite: ["owner", "office"],
  readSite: "everyone",
  editSite: ["owner", "office"],

  // Product models
  listProductModels: "everyone",
  addProductModel: ["owner", "office"],
  readProductModel: "everyone",
  editProductModel: ["owner", "office"],

  // Units
  listUnits: "everyone",
  receiveUnit: ["owner", "office", "installer"],
  readUnit: "everyone",
  readUnitLife: "everyone",
  editUnit: ["owner", "office", "installer"],
  installUnit: ["owner", "office", "installer"],
  removeUnit: ["owner", "office", "installer"],
  swapUnit: ["owner", "office", "installer"],

  // Banks
  listBanks: "everyone",
  addBank: ["owner", "office", "installer"],
  readBank: "everyone",
  editBank: ["owner", "office", "installer"],
  putBankPacks: ["owner", "office", "installer"],

  // Instruments
  listInstruments: "everyone",
  addInstrument: ["owner", "office"],
  readInstrument: "everyone",
  editInstrument: ["owner", "office"],
  addCalibration: ["owner", "office"],

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

  // Jobs
  listJobs: "everyone",
  openJob: ["owner", "office", "manager"],
  readJob: "everyone",
  editJob: ["owner", "office", "manager"],
  cancelJob: ["owner", "office", "manager"],
  addJobUnit: ["owner", "office", "manager"],
  removeJobUnit: ["owner", "office", "manager"],
  captureSerial: ["owner", "office", "manager", "installer"],

  // Visits
  listVisits: "everyone",
  bookVisit: ["owner", "office", "manager"],
  readVisit: "everyone",
  moveVisit: ["owner", "office", "manager"],
  cancelVisit: ["owner", "office", "manager"],

  // Snags
  listSnags: "everyone",
  listJobSnags: "everyone",
  raiseSnag: ["owner", "office", "manager", "installer"],
  readSnag: "everyone",
  editSnag: ["owner", "office", "manager", "installer"],
  mendSnag: ["owner", "office", "manager", "installer"],

  // The service itself
  openApiDocument: "anyone",
  browseDocs: "anyone",
  assets: "anyone",
  alive: "anyone",
  ready: "anyone",
  explainProblem: "anyone",
};

/** Routes that a library adds by itself, by the path they start with. */
export const ACCESS_BY_PATH: Record<string, string> = {
  "/docs": "browseDocs",
  "/assets/": "assets",
};
