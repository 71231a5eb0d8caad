// What office and crew told each other, what was ticked, filed, and put right.
export interface DemoMessage {
  job: string;
  by: string;
  /** Hours before the scenario is loaded. */
  hoursAgo: number;
  text: string;
  fromTablet?: true;
}

export const MESSAGES: readonly DemoMessage[] = [
  {
    ...{ job: "blocked", by: "ines", hoursAgo: 20 },
    text: "The customer is in until eleven and signs then. The gap beside the boiler is for Orla.",
  },
  {
    ...{ job: "blocked", by: "tamsin", hoursAgo: 18, fromTablet: true },
    text: "Understood. We bring the spare torque wrench for the bracket.",
  },
  {
    ...{ job: "blocked", by: "orla", hoursAgo: 3 },
    text: "I looked at the photo: the gap cannot be conceded on that wall. Move the pack 40 mm.",
  },
  {
    ...{ job: "hybrid", by: "ines", hoursAgo: 5 },
    text: "Park behind the mill. Frame anchors are short: take what the shelf has, more come at noon.",
  },
  {
    ...{ job: "half-done", by: "etienne", hoursAgo: 15, fromTablet: true },
    text: "Modules one to three stand; the switches are set. The rest today.",
  },
];

/** Lines of kits that somebody ticked; a tick that was taken back names who did. */
export const TICKS: readonly { job: string; line: string; by: string; undoneBy?: string }[] = [
  { job: "hybrid", line: "tool:torque-wrench", by: "tamsin" },
  { job: "hybrid", line: "tool:multimeter", by: "tamsin" },
  { job: "hybrid", line: "tool:multimeter", by: "bram" },
  { job: "hybrid", line: "plan:labels", by: "bram" },
  { job: "hybrid", line: "plan:sealant", by: "bram", undoneBy: "tamsin" },
];

export const DOCUMENTS = [
  {
    ...{ job: "hybrid", by: "ines", name: "Single-line diagram, mill.pdf" },
    lines: ["Single-line diagram", "Supply, gateway, inverter, bank: see the survey's sketch."],
  },
  {
    ...{ job: "closed-concession", by: "orla", name: "Letter about the side gap.pdf" },
    lines: ["Quillmere Cellworks", "171 mm beside the boxed-in pipe is accepted on this wall."],
  },
] as const;

export const MENDED = {
  job: "closed-concession",
  by: "bram",
  note: "Painted with the customer's tin; she looked at it and is content.",
} as const;

export const FOLLOWED_UP = {
  job: "blocked",
  by: "ines",
  visit: { day: 4, from: "08:30", to: "10:00", crew: "harbour" },
} as const;
