// The jobs of the scenario. Days are working days counted from today: −1 is the last Monday to
// Friday before it, 1 the next one; 0 is today itself, weekend or not. Times are those of the site.
import type { CrewKey } from "./people.ts";

export interface DemoVisit {
  day: number;
  from: string;
  to: string;
  note?: string;
}

/** An answer that is not the usual one, or the several attempts at it. */
export interface Exception {
  item: string;
  /** Which of the item's subjects, from 1; all of them if left out. */
  subject?: number;
  attempts: { value: object; instrument?: string; note?: string }[];
}

export interface Work {
  day: number;
  from: string;
  /** Items left unanswered. */
  without?: string[];
  /** The last item that was answered. */
  until?: string;
  exceptions?: Exception[];
}

export interface DemoJob {
  key: string;
  site: string;
  kind: "install" | "firmware" | "inspection" | "swap" | "removal" | "survey";
  plan: string;
  title: string;
  crew: CrewKey;
  openedOn: number;
  units: "packs" | "others" | "all" | "none" | "pallet-1" | "pallet-2";
  visits: DemoVisit[];
  work?: Work;
  end: "closed" | "open" | "reopened" | "cancelled";
  reason?: string;
  concession?: { item: string; subject: number; reason: string; endsInDays?: number };
  snag?: { title: string; detail: string };
  /** A pack is exchanged for one from stock before the work is proven. */
  swap?: { reason: string };
}

const day = (number: number, from = "08:30", to = "15:30", note?: string): DemoVisit => ({
  day: number,
  from,
  to,
  ...(note ? { note } : {}),
});

export const JOBS: readonly DemoJob[] = [
  {
    key: "closed-wall",
    site: "h5",
    kind: "install",
    plan: "WALL-PACK",
    title: "Two wide packs in the garage",
    crew: "heath",
    openedOn: -162,
    units: "packs",
    visits: [day(-150)],
    work: { day: -150, from: "09:05" },
    end: "closed",
  },
  {
    key: "closed-stack",
    site: "f2",
    kind: "install",
    plan: "STACK-BANK",
    title: "Three modules in the utility room",
    crew: "harbour",
    openedOn: -121,
    units: "packs",
    visits: [day(-110)],
    work: { day: -110, from: "09:10" },
    end: "closed",
  },
  {
    key: "closed-hybrid",
    site: "m5",
    kind: "install",
    plan: "HYBRID-INVERTER",
    title: "Hybrid inverter and changeover gateway",
    crew: "heath",
    openedOn: -104,
    units: "others",
    visits: [day(-95, "08:30", "16:30")],
    work: {
      day: -95,
      from: "09:00",
      exceptions: [
        {
          item: "zs",
          attempts: [
            { value: { number: "1.64", unit: "Ω" }, note: "Neutral bar screw was loose." },
            { value: { number: "0.47", unit: "Ω" } },
          ],
        },
      ],
    },
    end: "closed",
  },
  {
    key: "closed-wall-fr",
    site: "c3",
    kind: "install",
    plan: "WALL-PACK",
    title: "Two wide packs in the cider shed",
    crew: "cotentin",
    openedOn: -92,
    units: "packs",
    visits: [day(-80)],
    work: { day: -80, from: "09:15" },
    end: "closed",
  },
  {
    key: "closed-inspection",
    site: "o5",
    kind: "inspection",
    plan: "PERIODIC-INSPECTION",
    title: "Yearly look-over",
    crew: "heath",
    openedOn: -70,
    units: "all",
    visits: [day(-60, "09:00", "12:00")],
    work: { day: -60, from: "09:10" },
    end: "closed",
  },
  {
    key: "closed-swap",
    site: "h2",
    kind: "swap",
    plan: "WALL-PACK",
    title: "Pack that does not balance",
    crew: "heath",
    openedOn: -52,
    units: "packs",
    visits: [day(-48, "08:30", "12:30")],
    work: { day: -48, from: "08:50" },
    end: "closed",
    swap: { reason: "One cell stays behind the others; exchanged under warranty." },
  },
  {
    key: "closed-goods-in",
    site: "depot",
    kind: "inspection",
    plan: "GOODS-IN",
    title: "Pallet of modules and an inverter",
    crew: "harbour",
    openedOn: -43,
    units: "pallet-1",
    visits: [day(-42, "13:00", "15:00")],
    work: { day: -42, from: "13:05" },
    end: "closed",
  },
  {
    key: "closed-concession",
    site: "s6",
    kind: "install",
    plan: "WALL-PACK",
    title: "Two wide packs beside the boiler cupboard",
    crew: "harbour",
    openedOn: -38,
    units: "packs",
    visits: [day(-30)],
    work: {
      day: -30,
      from: "09:00",
      exceptions: [
        {
          item: "side_gap",
          subject: 2,
          attempts: [{ value: { number: 171, unit: "mm" }, note: "Boxed-in gas pipe." }],
        },
      ],
    },
    end: "closed",
    concession: {
      item: "side_gap",
      subject: 2,
      reason:
        "171 mm beside a boxed-in pipe. The maker agreed to it in writing for this wall; the letter " +
        "is with the job's photographs.",
    },
    snag: {
      title: "Paint round the upper bracket",
      detail: "A hand's breadth, magnolia; the customer has the tin.",
    },
  },
  {
    key: "reopened-inspection",
    site: "n3",
    kind: "inspection",
    plan: "PERIODIC-INSPECTION",
    title: "Look-over after the storm",
    crew: "heath",
    openedOn: -28,
    units: "all",
    visits: [day(-26, "09:00", "12:30")],
    work: { day: -26, from: "09:10" },
    end: "reopened",
    reason: "The electrode was measured in wet ground; measure it again in a dry week.",
    snag: {
      title: "Lid of the cable duct cracked",
      detail: "Left of the shippon door, 300 mm above ground. Bring a 50 by 50 lid.",
    },
  },
  {
    key: "closed-survey",
    site: "n5",
    kind: "survey",
    plan: "SITE-SURVEY",
    title: "Survey for a wall pack",
    crew: "heath",
    openedOn: -24,
    units: "none",
    visits: [day(-22, "10:00", "11:30")],
    work: { day: -22, from: "10:05" },
    end: "closed",
  },
  {
    key: "closed-survey-fr",
    site: "a4",
    kind: "survey",
    plan: "SITE-SURVEY",
    title: "Survey for the second gîte",
    crew: "cotentin",
    openedOn: -18,
    units: "none",
    visits: [day(-15, "14:00", "15:30")],
    work: { day: -15, from: "14:05" },
    end: "closed",
  },
  {
    key: "cancelled-survey",
    site: "p4",
    kind: "survey",
    plan: "SITE-SURVEY",
    title: "Survey for a stack",
    crew: "harbour",
    openedOn: -14,
    units: "none",
    visits: [day(3, "09:00", "10:00")],
    end: "cancelled",
    reason: "The house is being sold.",
  },
  {
    key: "closed-stack-fr",
    site: "b3",
    kind: "install",
    plan: "STACK-BANK",
    title: "Three modules in the old bakehouse",
    crew: "cotentin",
    openedOn: -20,
    units: "packs",
    visits: [day(-11)],
    work: { day: -11, from: "09:05" },
    end: "closed",
  },
  {
    key: "closed-firmware",
    site: "l5",
    kind: "firmware",
    plan: "FIRMWARE-VISIT",
    title: "Packs to 2.4.1",
    crew: "harbour",
    openedOn: -11,
    units: "packs",
    visits: [day(-8, "13:00", "15:00")],
    work: { day: -8, from: "13:05" },
    end: "closed",
  },
  {
    key: "closed-firmware-fr",
    site: "r2",
    kind: "firmware",
    plan: "FIRMWARE-VISIT",
    title: "Packs to 2.4.1",
    crew: "cotentin",
    openedOn: -9,
    units: "packs",
    visits: [day(-6, "10:00", "12:00")],
    work: { day: -6, from: "10:05" },
    end: "closed",
  },
  {
    key: "ready",
    site: "p2",
    kind: "install",
    plan: "WALL-PACK",
    title: "Two wide packs on the garage wall",
    crew: "heath",
    openedOn: -12,
    units: "packs",
    visits: [
      day(-1, "08:30", "16:00"),
      day(0, "16:00", "16:30", "Bring the folder, close the job."),
    ],
    work: { day: -1, from: "09:00" },
    end: "open",
  },
  {
    key: "blocked",
    site: "m3",
    kind: "install",
    plan: "WALL-PACK",
    title: "One pack in the utility room",
    crew: "harbour",
    openedOn: -10,
    units: "packs",
    visits: [
      day(-1, "08:30", "14:00"),
      day(0, "08:30", "10:30", "Three things are left; see the job."),
    ],
    work: {
      day: -1,
      from: "09:00",
      without: ["customer_signature"],
      exceptions: [
        { item: "side_gap", attempts: [{ value: { number: 148, unit: "mm" } }] },
        {
          item: "bracket_locks",
          attempts: [
            {
              value: { points: [1, 2], setting: { number: 4.4, unit: "N·m" } },
              instrument: "TW-02",
            },
          ],
        },
      ],
    },
    end: "open",
    snag: {
      title: "Door of the utility room catches",
      detail: "It brushes the conduit at the bottom hinge; move the conduit 10 mm.",
    },
  },
  {
    key: "half-done",
    site: "c4",
    kind: "install",
    plan: "STACK-BANK",
    title: "Three modules in the tool shed",
    crew: "cotentin",
    openedOn: -13,
    units: "packs",
    visits: [day(-1, "13:00", "17:00"), day(0, "08:30", "16:30")],
    work: { day: -1, from: "13:15", until: "module_switches" },
    end: "open",
  },
  firmwareVisit("firmware-1", "o1", "heath", day(0, "10:00", "12:00")),
  firmwareVisit("firmware-2", "l1", "harbour", day(0, "13:00", "15:00", "Key at Osier Farm.")),
  firmwareVisit("firmware-3", "m1", "heath", day(2, "13:30", "15:30")),
  firmwareVisit("firmware-4", "r1", "cotentin", day(2, "09:00", "10:30")),
  firmwareVisit("firmware-5", "l2", "harbour", day(3, "09:00", "11:00", "Key at Osier Farm.")),
  {
    key: "goods-in",
    site: "depot",
    kind: "inspection",
    plan: "GOODS-IN",
    title: "Pallet of wall packs",
    crew: "harbour",
    openedOn: -1,
    units: "pallet-2",
    visits: [day(1, "08:00", "09:00", "The carrier comes before eight.")],
    end: "open",
  },
  {
    key: "hybrid",
    site: "f4",
    kind: "install",
    plan: "HYBRID-INVERTER",
    title: "Hybrid inverter and changeover gateway",
    crew: "harbour",
    openedOn: -9,
    units: "others",
    visits: [day(1, "10:00", "16:30")],
    end: "open",
  },
  {
    key: "stack",
    site: "f4",
    kind: "install",
    plan: "STACK-BANK",
    title: "Four large modules under the mill floor",
    crew: "harbour",
    openedOn: -9,
    units: "packs",
    visits: [day(2, "08:30", "16:00")],
    end: "open",
    concession: {
      ...{ item: "wall_gap", subject: 1, endsInDays: 12 },
      reason: "The mill wall leans; the maker accepts 6 mm at the foot until the wall is mended.",
    },
  },
  {
    key: "inspection",
    site: "s4",
    kind: "inspection",
    plan: "PERIODIC-INSPECTION",
    title: "Yearly look-over",
    crew: "heath",
    openedOn: -7,
    units: "all",
    visits: [day(1, "09:00", "12:00", "Ring first: the dog.")],
    end: "open",
    concession: {
      ...{ item: "case_temperature", subject: 1, endsInDays: -1 },
      reason: "The loft is hot in a heat wave; read again once it is over.",
    },
  },
  {
    key: "inspection-fr",
    site: "a3",
    kind: "inspection",
    plan: "PERIODIC-INSPECTION",
    title: "Yearly look-over",
    crew: "cotentin",
    openedOn: -5,
    units: "all",
    visits: [day(1, "14:00", "17:00")],
    end: "open",
  },
  {
    key: "survey",
    site: "f5",
    kind: "survey",
    plan: "SITE-SURVEY",
    title: "Survey for a wall pack",
    crew: "heath",
    openedOn: -4,
    units: "none",
    visits: [day(2, "10:00", "11:30")],
    end: "open",
  },
  {
    key: "wall",
    site: "n4",
    kind: "install",
    plan: "WALL-PACK",
    title: "Two packs in the porch",
    crew: "heath",
    openedOn: -6,
    units: "packs",
    visits: [day(3, "08:30", "16:00")],
    end: "open",
  },
  {
    key: "unbooked",
    site: "n2",
    kind: "install",
    plan: "STACK-BANK",
    title: "Three modules in the wash house",
    crew: "heath",
    openedOn: -2,
    units: "packs",
    visits: [],
    end: "open",
  },
];

function firmwareVisit(key: string, site: string, crew: CrewKey, visit: DemoVisit): DemoJob {
  return {
    key,
    site,
    kind: "firmware",
    plan: "FIRMWARE-VISIT",
    title: "Packs to 2.4.1",
    crew,
    openedOn: -5,
    units: "packs",
    visits: [visit],
    end: "open",
  };
}
