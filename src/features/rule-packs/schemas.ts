import { z } from "zod";
import { rulePackSchema } from "../../domain/siting/rule-pack.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";

const EXAMPLE = {
  schema: "siting-rule-pack/1",
  id: "copperbeck-house-rules",
  region: "uk",
  title: "House rules",
  caution: "Our own rules; they come on top of the code and never instead of it.",
  editions: [{ id: "house-2026", family: "house", title: "2026", isDefault: true }],
  rules: [
    {
      kind: "clearance",
      id: "house-boundary",
      title: "1.5 m from the neighbours' boundary",
      source: { document: "House rules", edition: "2026", clause: "3" },
      certainty: "own rule",
      to: [{ kind: "boundary" }],
      distance: { shape: "straight-line", minimumMm: 1500 },
    },
  ],
};

export const RulePackBody = rulePackSchema
  .describe("siting-rule-pack/1: every rule with its document, edition and clause")
  .meta({ examples: [EXAMPLE] });

const code = z.string().max(40).describe("id of the pack, as its document says it");
export const RulePackParams = z.object({ id: code });
export const RulePackVersionParams = z.object({
  id: code,
  number: z.coerce.number().int().min(1).max(1_000_000),
});

const head = {
  id: code,
  region: z.string(),
  title: z.string(),
  builtIn: z.boolean().describe("comes with the product and cannot be changed"),
  version: z.number().int().nullable().describe("null for a pack that comes with the product"),
};

export const RulePackHead = z.object(head).meta({ id: "RulePackHead" });
export const RulePackPage = pageOf(RulePackHead);
export const RulePackQuery = z.strictObject({
  ...PAGE_QUERY,
  region: z.string().max(40).optional(),
});

export const RulePackShown = z
  .object({ ...head, document: z.record(z.string(), z.unknown()).describe("siting-rule-pack/1") })
  .meta({ id: "RulePack" });

export const RulePackVersion = z
  .object({
    number: z.number().int(),
    sha256: z.string().describe("over the canonical form (RFC 8785) of the document"),
    savedById: z.guid(),
    savedAt: z.iso.datetime({ offset: true }),
  })
  .meta({ id: "RulePackVersion" });
export const RulePackVersionPage = pageOf(RulePackVersion);
export const RulePackVersionQuery = z.strictObject(PAGE_QUERY);
