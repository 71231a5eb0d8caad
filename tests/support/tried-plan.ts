// A small plan to try: a confirmation, a voltage per unit, and one item for TT supplies only.
export const item = (more: object) => ({ title: "T", do: "Do it.", holdPoint: true, ...more });
export const TRIED_PLAN = {
  ...{ schema: "plan/1", title: "Tried", decisionRule: "simple" },
  attributes: { ocvMinV: "number" },
  stages: [
    {
      ...{ id: "all", title: "All" },
      items: [
        item({ id: "ready", kind: "confirm" }),
        item({
          ...{ id: "volts", kind: "measure", unit: "V", limit: { min: { cel: "model.ocvMinV" } } },
          ...{ repeat: { per: "unit" }, instrument: { class: "multimeter" }, after: ["ready"] },
        }),
        item({ id: "electrode", kind: "confirm", appliesWhen: 'site.supply == "TT"' }),
      ],
    },
  ],
};
