// An installation with the limits of the trade (common practice, no source): test values, nothing
// more.

export { PACKS, PRACTICE_CONTEXT, passingAnswers } from "./practice-job.ts";

const multimeter = { class: "multimeter" };
const perPack = { per: "unit", ofKind: "battery-pack" };

const measured = (id: string, title: string, unit: string, limit: object, more: object = {}) => ({
  id,
  kind: "measure",
  title,
  do: title,
  holdPoint: true,
  unit,
  limit,
  ...more,
});

const tightened = (
  id: string,
  title: string,
  points: number,
  torqueNm: number,
  more: object = {},
) => ({
  id,
  kind: "tighten",
  title,
  do: `${title}: ${torqueNm} N·m`,
  holdPoint: true,
  points,
  unit: "N·m",
  limit: { nominal: torqueNm, tolerance: { percent: 4 } },
  ...more,
});

export const PRACTICE_PLAN = {
  schema: "plan/1",
  title: "Wall shelf with two packs",
  decisionRule: "simple",
  attributes: {},
  stages: [
    {
      id: "receive",
      title: "Receive and check",
      items: [
        {
          id: "serial",
          kind: "identify",
          what: "serial",
          title: "Serial number of the pack",
          do: "Scan or type the serial number on the pack's label",
          holdPoint: true,
          repeat: perPack,
        },
        {
          id: "breaker_off",
          kind: "confirm",
          title: "Breaker off",
          do: "Switch the pack's breaker off",
          cautions: [
            "Isolate, lock off and prove dead; local codes and the maker's instructions prevail.",
          ],
          holdPoint: true,
          safetyCritical: true,
          repeat: perPack,
        },
        measured(
          "pack_voltage_off",
          "Terminal voltage, breaker tripped",
          "V",
          { min: 0, max: 0 },
          {
            repeat: perPack,
            after: ["breaker_off"],
            instrument: multimeter,
            safetyCritical: true,
            toClear: "Trip the breaker, wait for the terminals to discharge, measure again.",
          },
        ),
        {
          id: "breaker_on",
          kind: "confirm",
          title: "Breaker on",
          do: "Switch the pack's breaker on",
          holdPoint: true,
          repeat: perPack,
          after: ["pack_voltage_off"],
        },
        measured(
          "pack_voltage_on",
          "Terminal voltage, breaker closed",
          "V",
          { min: 38 },
          {
            repeat: perPack,
            after: ["breaker_on"],
            instrument: multimeter,
            toClear: "Check the pack's charge and its breaker; a pack that stays low goes back.",
          },
        ),
      ],
    },
    {
      id: "fix",
      title: "Drill, fix and tighten",
      items: [
        { ...counted("holes_above", "Anchor holes above", 4) },
        { ...counted("holes_below", "Anchor holes below", 14) },
        measured(
          "hole_depth",
          "Depth of the shallowest hole",
          "mm",
          { above: 50 },
          {
            instrument: { class: "depth-gauge" },
          },
        ),
        tightened("bracket_anchors", "Bracket anchors", 4, 5),
        tightened("shelf_bolts", "Shelf bolts M8", 8, 6),
        tightened("bracket_screws", "Bracket socket screws M5", 2, 5),
        measured("wall_gap", "Gap between pack and wall", "mm", { min: 9 }, { repeat: perPack }),
        tightened("earth_screw", "Earth screw", 1, 4, { safetyCritical: true }),
        tightened("power_terminals", "Power terminals", 2, 6, { repeat: perPack }),
        measured("cable_gap", "Cable to inner case", "mm", { min: 25 }, { repeat: perPack }),
        tightened("cover_screws", "Cover screws", 6, 2.75, { repeat: perPack }),
      ],
    },
    {
      id: "update",
      title: "Firmware",
      items: [
        measured("button_hold", "Update button held", "s", { min: 3, max: 4 }, { repeat: perPack }),
      ],
    },
  ],
};

function counted(id: string, title: string, count: number) {
  return { id, kind: "count", title, do: `Drill ${count}`, holdPoint: true, limit: { count } };
}
