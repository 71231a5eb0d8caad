import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { PlanKit } from "../../domain/kit/line.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { type FieldProblems, refusedFields, requireForm } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { planKitText, readPlanKit } from "../kit/kit-lines.ts";
import { PlanDocument } from "../plans/document.ts";
import { documentOf, readPlan, readVersion, replaceDocument } from "../plans/keep-plan.ts";
import { VersionParams } from "../plans/schemas.ts";
import { mayEdit } from "./plan-pages.ts";

const KitForm = z.object({
  kit: z.string().max(20_000).default(""),
  version: z.coerce.number().int(),
});

export const planKitPages: Feature = async (app, { db }) => {
  const show = async (
    request: FastifyRequest,
    reply: FastifyReply,
    failed?: { typed: string; problems: FieldProblems },
  ) => {
    const { id: planId, number } = request.params as z.infer<typeof VersionParams>;
    const { plan, row } = await inFirm(db, signedIn(request).firmId, async (tx) => ({
      plan: await readPlan(tx, planId),
      row: await readVersion(tx, { planId, number }),
    }));
    const kit = PlanKit.safeParse(documentOf(row).kit ?? []);
    return sendPage(request, reply, "plan-kit", {
      title: say(request.language, "kit.ofPlan", { plan: plan.code }),
      ...{ plan, number, version: row.version },
      kit: failed?.typed ?? planKitText(kit.success ? kit.data : []),
      problems: failed?.problems,
      mayEdit: row.state === "draft" && mayEdit(request),
    });
  };

  app.get("/plans/:id/versions/:number/kit", {
    schema: { operationId: "planKitPage", hide: true, params: VersionParams },
    handler: async (request, reply) => show(request, reply),
  });

  app.post("/plans/:id/versions/:number/kit", {
    schema: { operationId: "planKitForm", hide: true, params: VersionParams, body: KitForm },
    handler: async (request, reply) => {
      const { id: planId, number } = request.params;
      const { kit: typed, version } = request.body;
      const again = (problems: FieldProblems) =>
        show(request, reply.code(422), { typed, problems });
      try {
        const problem = await inFirm(db, signedIn(request).firmId, async (tx) => {
          const document = documentOf(await readVersion(tx, { planId, number }));
          const before = PlanKit.safeParse(document.kit ?? []);
          const read = readPlanKit(typed, before.success ? before.data : []);
          if (!read.ok) return read.problem;
          const next = requireForm(PlanDocument, { ...document, kit: read.kit });
          await replaceDocument(tx, { planId, number }, version, next);
          return undefined;
        });
        if (problem !== undefined) return again({ kit: problem });
      } catch (error) {
        return again(refusedFields(error));
      }
      return reply.redirect(`/plans/${planId}/versions/${number}`, 303);
    },
  });
};
