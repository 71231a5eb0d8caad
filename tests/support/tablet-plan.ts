// A short plan with an item of every kind. Limits are test values.
const perPack = { per: "unit", ofKind: "battery-pack" };

const ARRIVE = {
  id: "arrive",
  title: "Arrive and look",
  items: [
    {
      ...{ id: "briefed", kind: "confirm", title: "Everyone briefed", holdPoint: true },
      do: "Go through the risks of the place with everyone who works today.",
      why: "Who knows what can go wrong sees it coming.",
      cautions: ["A pack that is dented, wet, warm or hissing: stop, keep clear, ring the office."],
      safetyCritical: true,
    },
    {
      ...{ id: "serial", kind: "identify", what: "serial", title: "Serial number of the pack" },
      do: "Scan or type the serial on the pack's own label, not on the carton.",
      ...{ holdPoint: true, repeat: perPack },
    },
    {
      ...{ id: "wall", kind: "choose", title: "What the wall is", holdPoint: true },
      do: "Drill one trial hole and look at the dust.",
      options: ["Solid brick", "Concrete", "Something else"],
      limit: { oneOf: ["Solid brick", "Concrete"] },
    },
  ],
};

const FIX = {
  id: "fix",
  title: "Fix and set",
  items: [
    {
      ...{ id: "holes", kind: "count", title: "Anchor holes", holdPoint: true },
      ...{ do: "Count the holes drilled for the bracket.", limit: { count: 4 } },
    },
    {
      ...{ id: "depth", kind: "measure", title: "Depth of the shallowest hole", holdPoint: true },
      do: "Blow the holes out, gauge every one, enter the shallowest.",
      ...{ unit: "mm", limit: { above: 50 }, instrument: { class: "depth-gauge" } },
      toClear: "Drill deeper, blow out, gauge again.",
    },
    {
      ...{ id: "anchors", kind: "tighten", title: "Bracket anchors", holdPoint: true, points: 4 },
      do: "Tighten all four anchors crosswise.",
      ...{ unit: "N·m", limit: { nominal: 12, tolerance: { percent: 4 } }, after: ["depth"] },
    },
    {
      ...{ id: "address", kind: "set", title: "Address switch", holdPoint: true },
      ...{ do: "Set the address of the pack as drawn.", supply: "dead", repeat: perPack },
      positions: [{ switch: "address", position: { cel: 'unit.position == 1.0 ? "0" : "1"' } }],
    },
    {
      ...{ id: "picture", kind: "photo", title: "The finished wall", holdPoint: true, photos: 1 },
      do: "Take the whole wall from three steps away.",
    },
  ],
};

const PROVE = {
  id: "prove",
  title: "Switch on and prove",
  items: [
    {
      ...{ id: "switched_on", kind: "confirm", title: "Switched on", holdPoint: true },
      ...{ do: "Switch the bank on.", supply: "live", breakers: { leaves: { battery: "closed" } } },
    },
    {
      ...{ id: "voltage", kind: "measure", title: "Bank voltage", holdPoint: true, unit: "V" },
      ...{ do: "Read the voltage at the busbar.", limit: { min: 48, max: 56 }, supply: "live" },
      instrument: { class: "multimeter" },
      dwell: { after: "switched_on", atLeastS: 3 },
    },
    {
      ...{ id: "signed", kind: "sign", title: "Signature", holdPoint: true, whose: "customer" },
      do: "Show the customer the isolator, then have the work signed for.",
    },
  ],
};

export const TABLET_PLAN = {
  schema: "plan/1",
  title: "Two packs, short",
  decisionRule: "simple",
  attributes: {},
  stages: [ARRIVE, FIX, PROVE],
};

export const TABLET_SWITCH_MAP = {
  schema: "switch-map/1",
  id: "heron-5",
  productModel: "Heron 5",
  source: "test values",
  switches: [
    { kind: "rotary", id: "address", label: "Address", positions: [..."0123456789"] },
    { kind: "dip", id: "mode", label: "Mode", levers: 4, onIs: "up" },
  ],
  protocols: [],
};
