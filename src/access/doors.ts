import type { AccessRule } from "../web/access.ts";

/** Signing in, the pages, and the service itself. */
export const DOOR_ACCESS: Record<string, AccessRule> = {
  // Session
  signIn: "anyone",
  refreshSession: "anyone",
  readSession: "everyone",
  signOut: "everyone",
  signOutEverywhere: "everyone",
  signInPage: "anyone",
  signInForm: "anyone",
  signOutForm: "everyone",

  // Pages
  firmwareDuePage: "everyone",
  fleetPage: ["owner", "office", "manager", "auditor"],
  firstPage: "everyone",
  todayPage: "everyone",
  jobsPage: "everyone",
  jobPage: "everyone",
  surveyPage: "everyone",
  bankPage: "everyone",
  closeOutForm: ["installer", "office", "manager"],
  concessionForm: ["manager"],
  reopeningForm: ["manager"],

  crewsPage: "everyone",
  addCrewForm: ["owner", "office"],
  crewPage: ["owner", "office"],
  editCrewForm: ["owner", "office"],
  productModelsPage: "everyone",
  newProductModelPage: ["owner", "office"],
  addProductModelForm: ["owner", "office"],
  productModelPage: "everyone",
  editProductModelForm: ["owner", "office"],
  startPage: "anyone",
  startForm: "anyone",
  beginPage: ["owner", "office"],

  // The tablet's page
  tabletRedirect: "anyone",
  tabletFile: "anyone",

  // The service itself
  openApiDocument: "anyone",
  browseDocs: "anyone",
  assets: "anyone",
  alive: "anyone",
  ready: "anyone",
  explainProblem: "anyone",
};
