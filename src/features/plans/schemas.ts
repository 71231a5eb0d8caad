import { z } from "zod";
import { shortText } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";
import { PlanDocument } from "./document.ts";

const code = z
  .string()
  .regex(/^[A-Z0-9][A-Z0-9-]{1,31}$/, "must be 2 to 32 capitals, digits and hyphens")
  .describe("short name, once in a firm")
  .meta({ examples: ["PACK-INSTALL"] });
const title = shortText(200).meta({ examples: ["Wall-hung packs, up to six"] });

/** Enough to be opened and filled in; it cannot be published as it is. */
export const emptyDocument = (planTitle: string): Record<string, unknown> => ({
  schema: "plan/1",
  title: planTitle,
  decisionRule: "simple",
  attributes: {},
  stages: [],
});

export const EXAMPLE_DOCUMENT = {
  schema: "plan/1",
  title: "Wall-hung packs, up to six",
  decisionRule: "simple",
  attributes: {},
  stages: [
    {
      id: "isolation",
      title: "Isolate and prove dead",
      items: [
        {
          kind: "confirm",
          id: "proved_dead",
          title: "Proved dead",
          do: "Prove the tester, prove dead, prove the tester again.",
          cautions: ["Licensed persons only; local codes and the maker's instructions prevail."],
          holdPoint: true,
          safetyCritical: true,
        },
      ],
    },
  ],
};

const document = PlanDocument.meta({ examples: [EXAMPLE_DOCUMENT] });

export const NewPlan = z
  .strictObject({
    code,
    title: title.optional().describe("that of the starter plan if left out with `starter`"),
    document: document
      .optional()
      .describe("of the first draft; a document without stages if left out"),
    starter: shortText(60)
      .optional()
      .describe("name of a starter plan to copy instead (GET /api/v1/starter-plans)")
      .meta({ examples: ["wall-mounted-packs"] }),
  })
  .refine(({ title: given, starter }) => given !== undefined || starter !== undefined, {
    path: ["title"],
    error: "is missing; only with `starter` it may be left out",
  })
  .refine(({ document: given, starter }) => given === undefined || starter === undefined, {
    path: ["starter"],
    error: "does not go together with `document`",
  });
export const PlanEdit = z.strictObject({ title }).partial();
export const NewPlanVersion = z.strictObject({
  document: document.optional().describe("a copy of the latest version's if left out"),
});
export const PlanTrial = z.strictObject({ document });
export const PlanDocumentBody = document;
export const StoredDocument = z.record(z.string(), z.unknown()).describe("a plan/1 document");

const time = () => z.iso.datetime({ offset: true });
const VERSION_STATES = ["draft", "published"] as const;

export const PlanProblem = z
  .object({
    pointer: z.string().describe("RFC 6901 pointer into the document"),
    code: z.string(),
    sentence: z.string(),
  })
  .meta({ id: "PlanProblem" });

export const PlanFindings = z
  .object({
    publishable: z.boolean(),
    problems: z.array(PlanProblem).describe("what stands in the way of publishing"),
    warnings: z.array(PlanProblem).describe("what deserves a look"),
  })
  .meta({ id: "PlanFindings" });

const ofVersion = {
  id: z.guid(),
  planId: z.guid(),
  number: z.number().int(),
  state: z.enum(VERSION_STATES),
  sha256: z
    .string()
    .describe("of the document's canonical form (RFC 8785), whatever its layout was"),
  publishedAt: time().nullable(),
  publishedById: z.guid().nullable(),
  createdAt: time(),
  version: z.number().int(),
};

export const PlanVersionSummary = z.object(ofVersion).meta({ id: "PlanVersionSummary" });
export const PlanVersion = z
  .object({ ...ofVersion, document: StoredDocument, ...PlanFindings.shape })
  .meta({ id: "PlanVersion" });

export const Plan = z
  .object({
    id: z.guid(),
    code: z.string(),
    title: z.string(),
    draft: PlanVersionSummary.nullable(),
    published: PlanVersionSummary.nullable().describe("the latest published version"),
    createdAt: time(),
    version: z.number().int(),
  })
  .meta({ id: "Plan" });

export const PlanPage = pageOf(Plan);
export const PlanQuery = z.strictObject({
  ...PAGE_QUERY,
  code: shortText(32).optional(),
  title: shortText(200).optional().describe("part of the title"),
});

export const PlanVersionPage = pageOf(PlanVersionSummary);
export const PlanVersionQuery = z.strictObject(PAGE_QUERY);
export const VersionParams = z.object({
  id: z.guid().describe("UUID"),
  number: z.coerce.number().int().min(1).max(1_000_000),
});

export const StarterQuery = z.strictObject(PAGE_QUERY);
export const Starter = z
  .object({
    name: z.string(),
    code: z.string().describe("code that suits a plan copied from it"),
    title: z.string(),
    description: z.string().describe("what it is for"),
    jobKinds: z.array(z.string()),
    stages: z.number().int(),
    items: z.number().int(),
    holdPoints: z.number().int(),
  })
  .meta({ id: "StarterPlan" });
export const StarterPage = pageOf(Starter);
