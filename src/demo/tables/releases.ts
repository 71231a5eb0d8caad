// Firmware of the invented makers. Days are calendar days from today.
export interface DemoRelease {
  model: string;
  level: string;
  severity: "safety" | "important" | "routine";
  releasedDay: number;
  notes: string;
  withdrawnDay?: number;
}

export interface DemoTarget {
  model: string;
  level: string;
  setDay: number;
  dueDay: number;
}

export const RELEASES: readonly DemoRelease[] = [
  {
    model: "BRACKEN-W5",
    level: "2.3.6",
    severity: "routine",
    releasedDay: -310,
    notes: "Quieter fan at low load.",
  },
  {
    model: "BRACKEN-W5",
    level: "2.4.1",
    severity: "safety",
    releasedDay: -34,
    notes:
      "Opens the contactor sooner when a cell sensor fails. From 2.3.0 on it can be installed " +
      "directly. Keep the state of charge between 35 and 90 %.",
  },
  {
    model: "MILLRACE-H5",
    level: "3.1.2",
    severity: "routine",
    releasedDay: -260,
    notes: "Country settings brought up to date.",
  },
  {
    model: "MILLRACE-H5",
    level: "3.1.9",
    severity: "routine",
    releasedDay: -75,
    withdrawnDay: -61,
    notes: "Withdrawn: loses its meter after a supply failure.",
  },
  {
    model: "MILLRACE-H5",
    level: "3.2.0",
    severity: "important",
    releasedDay: -12,
    notes: "Rides through short dips of the supply; mends the meter fault of 3.1.9.",
  },
  {
    model: "DRYSTONE-S4",
    level: "7.12",
    severity: "important",
    releasedDay: -190,
    notes: "Balances at lower charge.",
  },
];

export const TARGETS: readonly DemoTarget[] = [
  { model: "BRACKEN-W5", level: "2.4.1", setDay: -27, dueDay: -9 },
  { model: "MILLRACE-H5", level: "3.2.0", setDay: -6, dueDay: 38 },
  { model: "DRYSTONE-S4", level: "7.12", setDay: -180, dueDay: -150 },
];
