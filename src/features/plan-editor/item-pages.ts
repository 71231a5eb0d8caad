import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { draftStages, type PlanEdit } from "../../domain/plan/edit.ts";
import { Item, ItemId } from "../../domain/plan/item.ts";
import { notFound } from "../../errors.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { type FieldProblems, refusedFields } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { documentOf, readPlan, readVersion } from "../plans/keep-plan.ts";
import { VersionParams } from "../plans/schemas.ts";
import { findingsOn } from "../plans/shown.ts";
import { changeDraft } from "./change-draft.ts";
import { choicesFor } from "./item-choices.ts";
import { itemFields, readItemFields } from "./item-fields.ts";
import { newItem } from "./new-item.ts";
import { kindName } from "./outline.ts";
import { mayEdit } from "./plan-pages.ts";

const ITEM_KINDS = Item.options.map((option) => option.shape.kind.value);
const FormFields = z.record(z.string(), z.string().max(20_000));
const ItemParams = VersionParams.extend({ itemId: z.string().max(60) });
const stageId = z.string().max(60);
const itemId = z.string().max(60);
const title = z.string().trim().min(1).max(160);
const by = z.enum(["-1", "1"]).transform((text): -1 | 1 => (text === "1" ? 1 : -1));
const version = z.coerce.number().int();

const Edit = z.discriminatedUnion("action", [
  z.object({ action: z.literal("add-stage"), title, version }),
  z.object({ action: z.literal("rename-stage"), stageId, title, version }),
  z.object({ action: z.literal("move-stage"), stageId, by, version }),
  z.object({ action: z.literal("remove-stage"), stageId, version }),
  z.object({ action: z.literal("add-item"), stageId, kind: z.enum(ITEM_KINDS), title, version }),
  z.object({ action: z.literal("copy-item"), itemId, version }),
  z.object({ action: z.literal("move-item"), itemId, by, version }),
  z.object({ action: z.literal("remove-item"), itemId, version }),
]);

export const planItemPages: Feature = async (app, { db }) => {
  app.post("/plans/:id/versions/:number/edits", {
    schema: { operationId: "editPlanForm", hide: true, params: VersionParams, body: Edit },
    handler: async (request, reply) => {
      const { id: planId, number } = request.params;
      const { version: seen, ...asked } = request.body;
      const madeId = await inFirm(db, signedIn(request).firmId, async (tx) => {
        const stages = draftStages(documentOf(await readVersion(tx, { planId, number })));
        const edit: PlanEdit =
          asked.action === "add-item"
            ? { action: "add-item", stageId: asked.stageId, item: newItem(stages, asked) }
            : asked;
        return changeDraft(tx, { planId, number }, seen, edit);
      });
      const path = `/plans/${planId}/versions/${number}`;
      const opens = asked.action === "add-item" || asked.action === "copy-item";
      return reply.redirect(opens && madeId ? `${path}/items/${madeId}` : path, 303);
    },
  });

  app.get("/plans/:id/versions/:number/items/:itemId", {
    schema: { operationId: "planItemPage", hide: true, params: ItemParams },
    handler: async (request, reply) => {
      const { item } = await draftItem(request, request.params);
      return show(request, reply, itemFields(item));
    },
  });

  app.post("/plans/:id/versions/:number/items/:itemId", {
    schema: { operationId: "planItemForm", hide: true, params: ItemParams, body: FormFields },
    handler: async (request, reply) => {
      const { id: planId, number, itemId: id } = request.params;
      const { version: seen, ...fields } = request.body;
      const { item: before } = await draftItem(request, request.params);
      const named = ItemId.safeParse(fields.id);
      const typed = { ...fields, kind: before.kind };
      if (!named.success) {
        const problems = { id: named.error.issues[0]?.message ?? "" };
        return show(request, reply.code(422), typed, problems);
      }
      try {
        await inFirm(db, signedIn(request).firmId, (tx) => {
          const item = readItemFields(fields, before);
          const edit = { action: "put-item", itemId: id, item } as const;
          return changeDraft(tx, { planId, number }, Number(seen), edit);
        });
      } catch (error) {
        return show(request, reply.code(422), typed, refusedFields(error));
      }
      return reply.redirect(`/plans/${planId}/versions/${number}#item-${fields.id}`, 303);
    },
  });

  type Params = z.infer<typeof ItemParams>;

  async function draftItem(request: FastifyRequest, { id: planId, number, itemId: id }: Params) {
    const { plan, row } = await inFirm(db, signedIn(request).firmId, async (tx) => ({
      plan: await readPlan(tx, planId),
      row: await readVersion(tx, { planId, number }),
    }));
    const stages = draftStages(documentOf(row));
    const stage = stages.find(({ items }) => items.some((one) => one.id === id));
    const item = stage?.items.find((one) => one.id === id);
    if (!stage || !item) throw notFound("item of the plan");
    return { plan, row, stages, stage, item };
  }

  async function show(
    request: FastifyRequest,
    reply: FastifyReply,
    typed: Record<string, string>,
    problems?: FieldProblems,
  ) {
    const params = request.params as Params;
    const { plan, row, stages, stage, item } = await draftItem(request, params);
    const { language } = request;
    const pointer = `/stages/${stages.indexOf(stage)}/items/${stage.items.indexOf(item)}`;
    const findings = findingsOn(documentOf(row));
    const about = [...findings.problems, ...findings.warnings].filter(
      (one) => one.pointer === pointer || one.pointer.startsWith(`${pointer}/`),
    );
    const path = `/plans/${params.id}/versions/${params.number}`;
    return sendPage(request, reply, "plan-item", {
      title: say(language, "editor.itemTitle", { title: item.title }),
      ...{ plan, stage, typed, problems, about, here: path, itemId: item.id },
      ...{ number: params.number, version: row.version },
      scripts: ["plan-item"],
      mayEdit: row.state === "draft" && mayEdit(request),
      kindName: kindName(language, item.kind),
      ...choicesFor(request, item, stages),
    });
  }
};
