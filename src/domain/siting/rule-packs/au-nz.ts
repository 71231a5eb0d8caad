// Australia and New Zealand: AS/NZS 5139:2019, clauses 4.2.2 to 4.2.4. The figures are known from
// secondary pages and from memory, never from the standard itself, and each rule says which.
import type { z } from "zod";
import { rulePackSchema } from "../rule-pack.ts";

const document = "AS/NZS 5139";
const edition = "2019";
const clause = "4.2.2.2, Fig. 4.1";
const distance = { shape: "zone", besideMm: 600, aboveMm: 900, belowMm: 600 } as const;
const sideways =
  "The figure beside is from memory. It is held to below the unit as well, on the safe side.";

const pack: z.input<typeof rulePackSchema> = {
  schema: "siting-rule-pack/1",
  id: "au-nz-2026",
  region: "au-nz",
  title: "Australia and New Zealand",
  caution:
    "Figures are from secondary pages and memory of AS/NZS 5139:2019; amendments and " +
    "state rules differ.",
  editions: [
    { id: "as-nzs-5139-2019", family: "as-nzs-5139", title: "2019 as published", isDefault: true },
    {
      id: "as-nzs-5139-2019-amended",
      family: "as-nzs-5139",
      title: "2019 with its amendment",
      isDefault: false,
    },
  ],
  rules: [
    {
      kind: "clearance",
      id: "au-nz-exit",
      title: "Clear of exits",
      source: { document, edition, clause },
      certainty: "seen in a secondary page",
      caution: sideways,
      editions: ["as-nzs-5139-2019"],
      to: [{ kind: "exit" }],
      distance,
    },
    {
      kind: "clearance",
      id: "au-nz-exit-amended",
      title: "Clear of exits not wider than 900 mm",
      source: { document, edition: "2019 with its amendment", clause: "4.2.2.2(b) exception" },
      certainty: "seen in a secondary page",
      caution: `${sideways} The exception sets conditions on the opening: read the amendment.`,
      editions: ["as-nzs-5139-2019-amended"],
      to: [{ kind: "exit" }],
      distance,
      exemptExitWiderThanMm: 900,
    },
    {
      kind: "clearance",
      id: "au-nz-openings",
      title: "Clear of windows and vents of habitable rooms",
      source: { document, edition, clause },
      certainty: "seen in a secondary page",
      caution: sideways,
      to: [
        { kind: "window", opensTo: ["habitable-room"] },
        { kind: "vent", opensTo: ["habitable-room"] },
      ],
      distance,
    },
    {
      kind: "clearance",
      id: "au-nz-appliances",
      title: "Clear of unrelated appliances",
      source: { document, edition, clause },
      certainty: "seen in a secondary page",
      caution: sideways,
      to: [{ kind: "unrelated-appliance" }],
      distance,
    },
    {
      kind: "forbidden-room",
      id: "au-nz-rooms",
      title: "Not in habitable rooms, ceilings or wall cavities",
      source: { document, edition, clause: "4.2.2" },
      certainty: "seen in a secondary page",
      forbidden: ["habitable-room", "bedroom", "loft", "ceiling-void", "wall-cavity"],
    },
    {
      kind: "forbidden-room",
      id: "au-nz-stairs-and-escape",
      title: "Not under stairs or in escape routes",
      source: { document, edition, clause: "4.2.2" },
      certainty: "memory",
      forbidden: ["under-stairs", "escape-route"],
    },
    {
      kind: "barrier",
      id: "au-nz-barrier",
      title: "Barrier on a wall of a habitable room",
      source: { document, edition, clause: "4.2.4" },
      certainty: "unsure",
      caution: "How far the barrier has to reach is from memory and unsure: read clause 4.2.4.",
      whenWallBacksOnto: ["habitable-room", "bedroom"],
      besideMm: 600,
      aboveMm: 900,
    },
  ],
};

export const AU_NZ_RULE_PACK = rulePackSchema.parse(pack);
