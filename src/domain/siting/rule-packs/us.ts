// United States: NFPA 855 ch. 15 and the IRC (one- and two-family dwellings), NEC 110.26 for
// working space. 3 ft is 914.4 mm exactly; the codes print 914, and the first-named unit governs.
import type { z } from "zod";
import { rulePackSchema } from "../rule-pack.ts";

// Through tenths of a millimetre, since 78 × 25.4 in floating point falls short of 1981.2.
const inchesMm = (inches: number) => Math.round(inches * 254) / 10;
const threeFeetMm = inchesMm(36);
const printed = "3 ft is 914.4 mm exactly; the codes print 914 mm.";
const renumbered = "R328 of 2021 became R330 in 2024 (unsure).";

const irc = (clause2021: string, clause2024: string) => ({
  source: { document: "IRC", edition: "2021", clause: clause2021 },
  sourceByEdition: { "irc-2024": { document: "IRC", edition: "2024", clause: clause2024 } },
});
const nfpa = (clause: string) => ({
  source: { document: "NFPA 855", edition: "2020 and 2023", clause },
});

const pack: z.input<typeof rulePackSchema> = {
  schema: "siting-rule-pack/1",
  id: "us-2026",
  region: "us",
  title: "United States",
  caution:
    "States and cities adopt different editions and amend them; the authority having " +
    "jurisdiction decides.",
  editions: [
    { id: "irc-2021", family: "irc", title: "IRC 2021", isDefault: true },
    { id: "irc-2024", family: "irc", title: "IRC 2024", isDefault: false },
  ],
  rules: [
    {
      kind: "unit-energy",
      id: "us-unit-energy",
      title: "One unit: above 1 kWh, at most 20 kWh",
      ...nfpa("ch. 15"),
      certainty: "seen in a secondary page",
      caution: "Above 20 kWh the full non-residential rules apply.",
      appliesAboveKWh: 1,
      maximumKWh: 20,
    },
    {
      kind: "aggregate-energy",
      id: "us-aggregate-inside",
      title: "Inside the dwelling: at most 40 kWh",
      ...nfpa("15.7; IRC R328.5"),
      certainty: "seen in a secondary page",
      rooms: ["utility-closet", "utility-space", "storage-space", "basement"],
      maximumKWh: 40,
    },
    {
      kind: "aggregate-energy",
      id: "us-aggregate-garage",
      title: "Garages and detached buildings: at most 80 kWh",
      ...nfpa("15.7; IRC R328.5"),
      certainty: "seen in a secondary page",
      rooms: ["attached-garage", "detached-building"],
      maximumKWh: 80,
    },
    {
      kind: "aggregate-energy",
      id: "us-aggregate-outside-wall",
      title: "Outside walls: at most 80 kWh",
      ...nfpa("15.7; IRC R328.5"),
      certainty: "memory",
      rooms: ["outside-wall"],
      maximumKWh: 80,
    },
    {
      kind: "aggregate-energy",
      id: "us-aggregate-ground",
      title: "Ground-mounted: at most 80 kWh",
      ...nfpa("15.7; IRC R328.5"),
      certainty: "memory",
      rooms: ["ground-mounted"],
      maximumKWh: 80,
    },
    {
      kind: "unit-separation",
      id: "us-unit-separation",
      title: "3 ft between units",
      ...irc("R328.3.1; NFPA 855 15.5", "R330.3.1; NFPA 855 15.5"),
      certainty: "seen in a secondary page",
      caution:
        `${printed} ${renumbered} A smaller distance needs a fire test that the ` +
        "authority accepts.",
      minimumMm: threeFeetMm,
      fireTestMayReduce: true,
    },
    {
      kind: "clearance",
      id: "us-openings",
      title: "Outside: 3 ft from doors and windows into the dwelling",
      ...irc("R328.4; NFPA 855 15.3", "R330.4; NFPA 855 15.3"),
      certainty: "seen in a secondary page",
      caution: `${printed} ${renumbered}`,
      rooms: ["outside-wall", "ground-mounted"],
      to: [
        { kind: "door", opensTo: ["habitable-room", "other-dwelling-room"] },
        { kind: "window", opensTo: ["habitable-room", "other-dwelling-room"] },
        { kind: "exit", opensTo: ["habitable-room", "other-dwelling-room"] },
      ],
      distance: { shape: "straight-line", minimumMm: threeFeetMm },
    },
    {
      kind: "forbidden-room",
      id: "us-rooms",
      title: "Only in the places that the code names",
      ...irc("R328.4", "R330.4"),
      certainty: "seen in a secondary page",
      caution: renumbered,
      forbidden: ["bedroom", "habitable-room", "bedroom-closet"],
      permitted: [
        "attached-garage",
        "detached-building",
        "outside-wall",
        "ground-mounted",
        "utility-closet",
        "utility-space",
        "storage-space",
        "basement",
      ],
    },
    {
      kind: "working-space",
      id: "us-working-space",
      title: "Working space in front of equipment",
      source: { document: "NEC", edition: "2023", clause: "110.26(A), T110.26(A)(1); IRC E3405" },
      certainty: "seen in a secondary page",
      widthMm: inchesMm(30),
      heightMm: inchesMm(78),
      depths: [
        {
          upToV: 150,
          condition1Mm: threeFeetMm,
          condition2Mm: threeFeetMm,
          condition3Mm: threeFeetMm,
        },
        {
          upToV: 600,
          condition1Mm: threeFeetMm,
          condition2Mm: inchesMm(42),
          condition3Mm: inchesMm(48),
        },
      ],
    },
  ],
};

export const US_RULE_PACK = rulePackSchema.parse(pack);
