// United Kingdom: PAS 63100:2024, clause 6.5, as secondary pages quote it.
import type { z } from "zod";
import { rulePackSchema } from "../rule-pack.ts";

const source = { document: "PAS 63100", edition: "2024", clause: "6.5" };

const pack: z.input<typeof rulePackSchema> = {
  schema: "siting-rule-pack/1",
  id: "uk-2026",
  region: "uk",
  title: "United Kingdom",
  caution:
    "PAS 63100 asks for outdoors where practicable, and for fire separation and " +
    "detection indoors, which this pack does not check.",
  editions: [
    {
      id: "pas-63100-2024",
      family: "pas-63100",
      // Pages differ: published 20 March, in force 31 March.
      title: "2024, published 20 March",
      isDefault: true,
    },
  ],
  rules: [
    {
      kind: "clearance",
      id: "uk-outdoor-openings",
      title: "Outdoors: 1 m from openings and escape routes",
      source,
      certainty: "seen in a secondary page",
      rooms: ["outside-wall", "ground-mounted"],
      to: [{ kind: "exit" }, { kind: "door" }, { kind: "window" }, { kind: "vent" }],
      distance: { shape: "straight-line", minimumMm: 1000 },
    },
    {
      kind: "clearance",
      id: "uk-stored-flammables",
      title: "2 m from stored flammable materials",
      source,
      certainty: "unsure",
      caution: "Seen cut short in one secondary page: read clause 6.5 for what counts as stored.",
      to: [{ kind: "stored-flammables" }],
      distance: { shape: "straight-line", minimumMm: 2000 },
    },
    {
      kind: "forbidden-room",
      id: "uk-rooms",
      title: "Not in bedrooms, escape routes, lofts or voids",
      source,
      certainty: "seen in a secondary page",
      forbidden: [
        "bedroom",
        "bedroom-closet",
        "escape-route",
        "loft",
        "ceiling-void",
        "wall-cavity",
      ],
    },
  ],
};

export const UK_RULE_PACK = rulePackSchema.parse(pack);
