// Who works when and who is away when: days counted in working days from the day the scenario is loaded on.
import type { ABSENCE_REASONS } from "../../features/absences/schemas.ts";
import type { JOB_KINDS } from "../../features/jobs/schemas.ts";

export const ABSENCES: readonly {
  person: string;
  from: number;
  to: number;
  /** Clock times where it is not whole days. */
  hours?: { from: string; to: string };
  reason: (typeof ABSENCE_REASONS)[number];
  note: string | null;
}[] = [
  { person: "ines", from: -6, to: -5, reason: "sickness", note: null },
  { person: "morwenna", from: 12, to: 16, reason: "leave", note: "Agreed in May" },
  { person: "noor", from: 13, to: 14, reason: "training", note: "Refresher on DC work" },
  {
    ...{ person: "orla", from: 3, to: 3, hours: { from: "13:00", to: "17:00" } },
    ...{ reason: "other" as const, note: "Dentist" },
  },
];

/** The firm's week where no person is named. */
export const WEEKS: readonly { person?: string; weekdays: number[]; from: string; to: string }[] = [
  { weekdays: [1, 2, 3, 4, 5], from: "08:00", to: "17:00" },
  { person: "orla", weekdays: [1, 2, 3, 4], from: "09:00", to: "17:30" },
  { person: "noor", weekdays: [1, 2, 3, 4, 5], from: "07:30", to: "16:30" },
];

/** What people are qualified for, and which jobs ask for it. */
export const KINDS = {
  dc: { name: "DC work up to 1000 V", warnDays: 60 },
  aid: { name: "First aid", warnDays: 30 },
  lifting: { name: "Handling heavy loads", warnDays: 30 },
} as const;

export const ASKED: readonly {
  jobKind: (typeof JOB_KINDS)[number];
  kind: keyof typeof KINDS;
  askedOf: "everyone" | "someone";
}[] = [
  { jobKind: "install", kind: "dc", askedOf: "someone" },
  { jobKind: "swap", kind: "dc", askedOf: "someone" },
  { jobKind: "install", kind: "lifting", askedOf: "everyone" },
];

/** Days from the day of loading; null does not run out. */
export const HELD: readonly {
  person: string;
  kind: keyof typeof KINDS;
  from: number;
  to: number | null;
  number: string | null;
}[] = [
  { person: "dev", kind: "dc", from: -700, to: 395, number: "DC-20417" },
  { person: "morwenna", kind: "dc", from: -1055, to: 40, number: "DC-18802" },
  { person: "tamsin", kind: "dc", from: -300, to: 795, number: "DC-21950" },
  { person: "etienne", kind: "dc", from: -510, to: 585, number: "FR-DC-0733" },
  { person: "bram", kind: "aid", from: -760, to: -30, number: "A-5521" },
  { person: "noor", kind: "aid", from: -715, to: 15, number: "A-6018" },
  { person: "dev", kind: "aid", from: -200, to: 530, number: "A-6642" },
  { person: "dev", kind: "lifting", from: -700, to: null, number: null },
  { person: "morwenna", kind: "lifting", from: -900, to: null, number: null },
  { person: "tamsin", kind: "lifting", from: -300, to: null, number: null },
  { person: "bram", kind: "lifting", from: -300, to: null, number: null },
  { person: "etienne", kind: "lifting", from: -510, to: null, number: null },
  { person: "noor", kind: "lifting", from: -715, to: null, number: null },
];

/** Inspections that come round; the first turn so many days from the day of loading. */
export const RECURRING: readonly {
  site: string;
  title: string;
  everyMonths: number;
  firstDue: number;
  isPaused?: boolean;
}[] = [
  { site: "o5", title: "Yearly look-over", everyMonths: 12, firstDue: 47 },
  { site: "s4", title: "Yearly look-over", everyMonths: 12, firstDue: 364 },
  { site: "a3", title: "Yearly look-over", everyMonths: 12, firstDue: 366 },
  { site: "h2", title: "Two-yearly inspection", everyMonths: 24, firstDue: 210 },
  { site: "depot", title: "Store and racks", everyMonths: 3, firstDue: 62, isPaused: true },
];
