// A small plan for the walkthrough: its limits are for show and belong to no maker's unit.
export const WALKTHROUGH_PLAN = {
  schema: "plan/1",
  title: "One pack on a wall",
  decisionRule: "simple",
  attributes: { nominalVoltageV: "number" },
  stages: [
    {
      id: "prepare",
      title: "Prepare",
      items: [
        {
          id: "serial",
          kind: "identify",
          what: "serial",
          title: "Serial number",
          do: "Scan or type the number on the pack's label",
          holdPoint: true,
          repeat: { per: "unit", ofKind: "battery-pack" },
        },
        {
          id: "breaker_off",
          kind: "confirm",
          title: "Breaker off",
          do: "Switch the pack's breaker off, lock off and prove dead",
          cautions: [
            "Follow the maker's instructions and local codes; licensed practice prevails.",
          ],
          holdPoint: true,
          safetyCritical: true,
          repeat: { per: "unit", ofKind: "battery-pack" },
        },
      ],
    },
    {
      id: "measure",
      title: "Measure and tighten",
      items: [
        {
          id: "pack_voltage",
          kind: "measure",
          title: "Terminal voltage",
          do: "Measure across the pack's terminals with its breaker on",
          toClear: "Check the pack's charge and breaker, then measure again.",
          holdPoint: true,
          repeat: { per: "unit", ofKind: "battery-pack" },
          after: ["breaker_off"],
          unit: "V",
          limit: {
            min: { cel: "model.nominalVoltageV * 0.9" },
            max: { cel: "model.nominalVoltageV * 1.15" },
          },
          instrument: { class: "multimeter" },
        },
        {
          id: "insulation",
          kind: "measure",
          title: "Insulation resistance",
          do: "Measure with the circuit dead and isolated",
          holdPoint: true,
          unit: "MΩ",
          limit: { min: 1 },
          instrument: { class: "insulation-tester" },
        },
        {
          id: "bracket",
          kind: "tighten",
          title: "Bracket screws",
          do: "Tighten all four with the torque wrench",
          holdPoint: true,
          points: 4,
          unit: "N·m",
          limit: { nominal: 7, tolerance: { percent: 4 } },
        },
      ],
    },
  ],
};
