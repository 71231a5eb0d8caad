import type { AccessRule } from "./web/access.ts";

/** Who may do what: every route by its operation, and nothing else. The server does not start otherwise. */
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
