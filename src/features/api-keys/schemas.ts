import { z } from "zod";
import { dateTime, shortText } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";
import { SCOPE_NAMES } from "./scope-names.ts";

const scopes = z
  .array(z.enum(SCOPE_NAMES))
  .min(1, "a key is for something: name at least one scope")
  .max(SCOPE_NAMES.length)
  .refine((list) => new Set(list).size === list.length, "must not name a scope twice");

export const NewApiKey = z.strictObject({
  name: shortText(80).meta({ examples: ["Fleet dashboard"] }),
  scopes: scopes.meta({ examples: [["read:fleet", "read:due"]] }),
  expiresAt: dateTime().optional(),
});

export const KEY_STANDINGS = ["inUse", "over", "revoked"] as const;

export const ApiKey = z
  .object({
    id: z.guid(),
    name: z.string(),
    scopes: z.array(z.string()),
    createdByName: z.string(),
    createdAt: z.string(),
    expiresAt: z.string().nullable(),
    lastUsedAt: z.string().nullable(),
    revokedAt: z.string().nullable(),
  })
  .meta({ id: "ApiKey" });

export const MadeApiKey = ApiKey.extend({
  token: z.string().describe("shown this once; send it as Authorization: Bearer …"),
}).meta({ id: "MadeApiKey" });
export const ApiKeyPage = pageOf(ApiKey);
export const ApiKeyQuery = z.strictObject(PAGE_QUERY);
