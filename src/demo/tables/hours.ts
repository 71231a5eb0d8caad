// Who works when and who is away when: days counted in working days from the day the scenario is loaded on.
import type { ABSENCE_REASONS } from "../../features/absences/schemas.ts";

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
