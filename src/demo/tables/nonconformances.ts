// What did not conform, and how far each was followed up. Days are counted from today.
export interface DemoNonconformance {
  job: string;
  kind: "work" | "material" | "audit";
  title: string;
  openedDaysAgo: number;
  containment?: string;
  cause?: string;
  /** The corrections in turn, each but the last seen not to work. */
  corrections: {
    text: string;
    effectInDays?: number;
    verdict?: "effective" | "not-effective";
    note?: string;
  }[];
}

export const NONCONFORMANCES: readonly DemoNonconformance[] = [
  {
    ...{ job: "closed-stack", kind: "work", openedDaysAgo: 90 },
    title: "Torque marks missing on two of three module clamps",
    containment: "Tamsin went back the same week, checked all clamps and marked them.",
    cause: "The marker pen was not in the crew's set, and nothing asked for it.",
    corrections: [
      {
        text: "Every set has a marker; the plan asks for a picture of the marks.",
        ...{ effectInDays: -45, verdict: "effective" },
        note: "Eleven records since then show the marks.",
      },
    ],
  },
  {
    ...{ job: "closed-hybrid", kind: "work", openedDaysAgo: 60 },
    title: "Neutral bar screw left loose, found by the loop reading",
    containment: "Tightened at once; the reading was taken again and passed.",
    cause: "The bar is tightened before the last conductor goes in.",
    corrections: [
      {
        text: "A note in the crew's folder.",
        ...{ effectInDays: -25, verdict: "not-effective" },
        note: "The same on one of four boards looked at.",
      },
      {
        text: "The plan asks for the bar's torque as its own item, after the last conductor.",
        effectInDays: -3,
      },
    ],
  },
  {
    ...{ job: "closed-swap", kind: "material", openedDaysAgo: 20 },
    title: "Packing straps had cut into the carton of the new pack",
    containment: "Set apart, case and terminals looked over before it was lifted.",
    corrections: [],
  },
];
