// The packs, instruments and passing answers of the practice installation: invented, for tests.
import type { Answer } from "../../../src/domain/acceptance/answer.ts";
import type { JobContext } from "../../../src/domain/plan/context.ts";

const PERSON = "01900000-0000-7000-8000-0000000000aa";
export const PACKS = [
  "01900000-0000-7000-8000-000000000001",
  "01900000-0000-7000-8000-000000000002",
] as const;
const METER = "01900000-0000-7000-8000-0000000000b1";
const WRENCH = "01900000-0000-7000-8000-0000000000b2";
const GAUGE = "01900000-0000-7000-8000-0000000000b3";

const instrument = (id: string, reference: string, instrumentClass: string) => ({
  id,
  reference,
  class: instrumentClass,
  calibrations: [{ on: "2026-02-02", due: "2027-02-02", passed: true }],
});

export const PRACTICE_CONTEXT: JobContext = {
  site: { supply: "TN-C-S", region: "uk", country: "GB", timeZone: "Europe/London" },
  units: PACKS.map((id, index) => ({
    id,
    serial: `KH0000${index + 1}`,
    kind: "battery-pack",
    modelCode: "KESTREL-5",
    position: index + 1,
    attributes: {},
  })),
  instruments: [
    instrument(METER, "M-01", "multimeter"),
    instrument(WRENCH, "W-01", "torque-wrench"),
    instrument(GAUGE, "D-01", "depth-gauge"),
  ],
  concessions: [],
  now: "2026-11-25T17:00:00+00:00",
};

/** Passing values by item; per pack where the item is. */
const VALUES: [string, object, ("pack" | "meter" | "wrench" | "gauge")[]][] = [
  ["serial", {}, ["pack"]],
  ["breaker_off", { done: true }, ["pack"]],
  ["pack_voltage_off", { number: 0, unit: "V" }, ["pack", "meter"]],
  ["breaker_on", { done: true }, ["pack"]],
  ["pack_voltage_on", { number: 38, unit: "V" }, ["pack", "meter"]],
  ["holes_above", { count: 4 }, []],
  ["holes_below", { count: 14 }, []],
  ["hole_depth", { number: "50.1", unit: "mm" }, ["gauge"]],
  ["bracket_anchors", { points: [1, 2, 3, 4], setting: { number: 5, unit: "N·m" } }, ["wrench"]],
  [
    "shelf_bolts",
    { points: [1, 2, 3, 4, 5, 6, 7, 8], setting: { number: 6, unit: "N·m" } },
    ["wrench"],
  ],
  ["bracket_screws", { points: [1, 2], setting: { number: 5, unit: "N·m" } }, ["wrench"]],
  ["wall_gap", { number: 9, unit: "mm" }, ["pack"]],
  ["earth_screw", { points: [1], setting: { number: 4, unit: "N·m" } }, ["wrench"]],
  ["power_terminals", { points: [1, 2], setting: { number: 6, unit: "N·m" } }, ["pack", "wrench"]],
  ["cable_gap", { number: 25, unit: "mm" }, ["pack"]],
  [
    "cover_screws",
    { points: [1, 2, 3, 4, 5, 6], setting: { number: 2.75, unit: "N·m" } },
    ["pack", "wrench"],
  ],
  ["button_hold", { number: 3, unit: "s" }, ["pack"]],
];
const INSTRUMENTS: Record<string, string> = { meter: METER, wrench: WRENCH, gauge: GAUGE };

/** Answers that pass every item, in the plan's order, a minute apart. */
export function passingAnswers(): Answer[] {
  const answers: Answer[] = [];
  for (const [itemId, value, needs] of VALUES) {
    const subjects = needs.includes("pack") ? PACKS : [""];
    for (const subject of subjects) {
      const order = answers.length + 1;
      const instrumentId = needs.map((need) => INSTRUMENTS[need]).find(Boolean);
      const hour = String(9 + Math.floor(order / 60)).padStart(2, "0");
      const minute = String(order % 60).padStart(2, "0");
      answers.push({
        id: `01900000-0000-7000-8000-${String(order).padStart(12, "0")}`,
        itemId,
        subject,
        takenAt: `2026-11-25T${hour}:${minute}:00+00:00`,
        personId: PERSON,
        order,
        value:
          itemId === "serial" ? { text: `KH0000${PACKS.indexOf(subject as never) + 1}` } : value,
        ...(instrumentId ? { instrumentId } : {}),
      });
    }
  }
  return answers;
}
