import { z } from "zod";

export const ChangeParams = z.object({ id: z.guid(), changeId: z.guid() });

export const CHANGES_MOST = 100;

export const Change = z
  .object({
    id: z.guid(),
    at: z.iso.datetime({ offset: true }),
    by: z
      .object({ id: z.guid(), name: z.string() })
      .nullable()
      .describe("null where no person did it"),
    fields: z.array(z.object({ name: z.string(), before: z.unknown(), after: z.unknown() })),
    undoesId: z.guid().nullable().describe("the change that this one took back"),
    undone: z.boolean(),
    canUndo: z.boolean().describe("whether nothing has been changed since"),
  })
  .meta({ id: "Change" });

export const Changes = z
  .object({ items: z.array(Change).describe(`the newest ${CHANGES_MOST}, newest first`) })
  .meta({ id: "Changes" });
