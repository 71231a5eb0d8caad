import { z } from "zod";
import { switchMapSchema } from "../../domain/bank/parse-switch-map.ts";
import { MOST_PACKS } from "../../domain/bank/switch-map.ts";

const EXAMPLE_MAP = {
  schema: "switch-map/1",
  id: "cairn-48",
  productModel: "CAIRN-48",
  source: "Cairn installation sheet, edition 2",
  switches: [
    { kind: "rotary", id: "address", label: "Address", positions: ["0", "1", "2", "3"] },
    { kind: "termination", id: "end", label: "End", onIs: "up" },
  ],
  protocols: [
    {
      id: "can-b",
      name: "CAN B",
      packCount: { minimum: 1, maximum: 4 },
      settings: {
        form: "formula",
        parts: [
          { switch: "address", rule: { by: "position", add: -1 } },
          { switch: "end", rule: { by: "ends", which: "last" } },
        ],
      },
      address: { switch: "address" },
      gapsAllowed: false,
    },
  ],
};

const protocol = z.string().min(1).max(40).describe("id of a protocol of the switch map");
export const SettingsQuery = z.strictObject({
  protocol: protocol.optional().describe("the bank's own where left out"),
});

const position = z.string().max(12).describe("`A` on a rotary switch, `1010` on levers, on or off");
const setting = z.object({ switch: z.string().max(40), position });

const foundPack = z.strictObject({
  position: z.number().int().min(1).max(MOST_PACKS),
  settings: z.array(z.strictObject({ switch: z.string().max(40), position })).max(8),
});

export const SettingsTrial = z.strictObject({
  map: switchMapSchema.describe("switch-map/1").meta({ examples: [EXAMPLE_MAP] }),
  protocol: protocol.meta({ examples: ["can-b"] }),
  packCount: z
    .number()
    .int()
    .min(1)
    .max(MOST_PACKS)
    .meta({ examples: [3] }),
  found: z
    .array(foundPack)
    .max(MOST_PACKS)
    .optional()
    .describe("what was read off the switches, to be held against what the map asks for")
    .meta({ examples: [[{ position: 1, settings: [{ switch: "address", position: "0" }] }]] }),
});

const addressCheck = {
  clashes: z
    .array(z.object({ address: z.number().int(), positions: z.array(z.number().int()) }))
    .describe("packs that would answer to one address"),
  gaps: z.array(z.number().int()).describe("addresses in between that no pack has"),
};

const result = {
  productModel: z.string(),
  source: z.string().describe("document and edition that the switch map was taken from"),
  protocol: z.object({ id: z.string(), name: z.string() }),
  switches: z.array(z.object({ id: z.string(), label: z.string(), kind: z.string() })),
  ...addressCheck,
  sentences: z.array(z.string()).describe("each clash and gap in words"),
  caution: z.string(),
};

const pack = {
  position: z.number().int().describe("place in the bank, from 1"),
  settings: z.array(setting),
  address: z.number().int(),
};

export const BankSettings = z
  .object({
    bankId: z.guid(),
    ...result,
    packs: z.array(z.object({ unitId: z.guid(), serial: z.string(), ...pack })),
  })
  .meta({ id: "BankSettings" });

export const TriedSettings = z
  .object({
    ...result,
    packs: z.array(z.object(pack)),
    differences: z
      .array(
        z.object({
          position: z.number().int(),
          switch: z.string().optional(),
          sentence: z.string(),
        }),
      )
      .describe("what was found against what is needed; empty where nothing was given"),
  })
  .meta({ id: "TriedBankSettings" });
