import type { MessageKey } from "../../language/catalogue.ts";

/** One line with its link; a tag where something presses. */
export interface Entry {
  href: string;
  text: string;
  detail?: string;
  tag?: { kind: "bad" | "warn" | "good"; mark: string; text: string };
}

export interface Section {
  name: string;
  title: string;
  entries: Entry[];
  /** Where the rest of the list is. */
  more?: { href: string; text: string } | undefined;
}

/** The order in which they stand, the most pressing first. */
export const SECTIONS = [
  "visits",
  "blocked",
  "held",
  "overdue",
  "nonconformances",
  "mails",
  "instruments",
  "qualifications",
  "concessions",
  "records",
] as const;
export type SectionName = (typeof SECTIONS)[number];

export const TITLES: Readonly<Record<SectionName, MessageKey>> = {
  visits: "home.visits",
  blocked: "home.blocked",
  held: "home.held",
  overdue: "home.overdue",
  nonconformances: "home.nonconformances",
  mails: "home.mails",
  instruments: "home.instruments",
  qualifications: "home.qualifications",
  concessions: "home.concessions",
  records: "home.records",
};

const LAPSING: readonly SectionName[] = ["instruments", "qualifications"];
const OFFICE: readonly SectionName[] = [
  ...(["visits", "blocked", "held", "nonconformances", "mails"] as const),
  ...LAPSING,
];

/** What each role has to look at; an owner stands in for the office and the manager. */
const OF_ROLE: Readonly<Record<string, readonly SectionName[]>> = {
  owner: [...OFFICE, "overdue", "concessions"],
  office: OFFICE,
  manager: ["blocked", "held", "overdue", "nonconformances", ...LAPSING, "concessions"],
  installer: ["visits", "blocked", ...LAPSING],
  auditor: ["records"],
};

export const sectionsOf = (roles: readonly string[]): SectionName[] =>
  SECTIONS.filter((name) => roles.some((role) => OF_ROLE[role]?.includes(name)));
