import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { draftStages } from "../../domain/plan/edit.ts";
import { Item } from "../../domain/plan/item.ts";
import { dayAt } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { type FieldProblems, type FormBody, readForm, refusedFields } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { readFirm } from "../firms/store.ts";
import {
  documentOf,
  publishVersion,
  readPlan,
  readVersion,
  writePlan,
  writeVersion,
} from "../plans/keep-plan.ts";
import { NewPlan, VersionParams } from "../plans/schemas.ts";
import { findingsOn } from "../plans/shown.ts";
import { countOpenJobs } from "../plans/store.ts";
import { undoEdit } from "./change-draft.ts";
import { kindName, outlineOf } from "./outline.ts";
import { jobsByPlan } from "./store.ts";

const ITEM_KINDS = Item.options.map((option) => option.shape.kind.value);
const EDITING = ["owner", "manager"] as const;
const FormFields = z.record(z.string(), z.string().max(20_000));
const Publication = z.object({ version: z.coerce.number().int() });

export const planEditorPages: Feature = async (app, { db, now }) => {
  app.get("/plans/new", {
    schema: { operationId: "newPlanPage", hide: true },
    handler: async (request, reply) => showNew(request, reply, {}),
  });

  app.post("/plans/new", {
    schema: { operationId: "newPlanForm", hide: true, body: FormFields },
    handler: async (request, reply) => {
      const typed = request.body;
      const read = readForm(NewPlan, typed);
      if (!read.ok) return showNew(request, reply.code(422), typed, read.problems);
      const { code, title = code } = read.value;
      try {
        const plan = await inFirm(db, signedIn(request).firmId, (tx) =>
          writePlan(tx, { code, title }),
        );
        return reply.redirect(`/plans/${plan.id}/versions/1`, 303);
      } catch (error) {
        return showNew(request, reply.code(422), typed, refusedFields(error));
      }
    },
  });

  app.get("/plans/:id", {
    schema: { operationId: "planPage", hide: true, params: IdParams },
    handler: async (request, reply) => {
      const { language } = request;
      const data = await inFirm(db, signedIn(request).firmId, async (tx) => {
        const plan = await readPlan(tx, request.params.id);
        const open = await countOpenJobs(
          tx,
          plan.versions.map(({ id }) => id),
        );
        const { timeZone } = await readFirm(tx);
        return { plan, open, jobs: await jobsByPlan(tx, plan.id), timeZone };
      });
      const { plan, open, jobs, timeZone } = data;
      return sendPage(request, reply, "plan", {
        title: `${plan.code} ${plan.title}`,
        plan,
        jobs: jobs.map((job) => ({
          ...job,
          stateName: say(language, `job.state.${job.state as "open" | "closed" | "cancelled"}`),
        })),
        mayEdit: mayEdit(request),
        hasDraft: plan.versions.some(({ state }) => state === "draft"),
        versions: plan.versions.map((version, index) => ({
          number: version.number,
          isDraft: version.state === "draft",
          publishedOn: version.publishedAt && dayAt(language, version.publishedAt, timeZone),
          jobs: say(language, "editor.openJobs", { count: open.get(version.id) ?? 0 }),
          before: plan.versions[index + 1]?.number,
        })),
      });
    },
  });

  app.post("/plans/:id/versions", {
    schema: { operationId: "newPlanVersionForm", hide: true, params: IdParams },
    handler: async (request, reply) => {
      const { id } = request.params;
      const { number } = await inFirm(db, signedIn(request).firmId, (tx) =>
        writeVersion(tx, id, undefined),
      );
      return reply.redirect(`/plans/${id}/versions/${number}`, 303);
    },
  });

  app.get("/plans/:id/versions/:number", {
    schema: { operationId: "planVersionPage", hide: true, params: VersionParams },
    handler: async (request, reply) => {
      const { id: planId, number } = request.params;
      const { plan, row } = await inFirm(db, signedIn(request).firmId, async (tx) => ({
        plan: await readPlan(tx, planId),
        row: await readVersion(tx, { planId, number }),
      }));
      const document = documentOf(row);
      const isDraft = row.state === "draft";
      return sendPage(request, reply, "plan-version", {
        title: `${plan.code} ${number}`,
        ...{ plan, number, isDraft, version: row.version },
        here: `/plans/${planId}/versions/${number}`,
        mayEdit: isDraft && mayEdit(request),
        mayUndo: isDraft && mayEdit(request) && row.previousDocument !== null,
        before: number > 1 ? number - 1 : undefined,
        kinds: ITEM_KINDS.map((value) => ({ value, text: kindName(request.language, value) })),
        ...outlineOf(request.language, draftStages(document), findingsOn(document)),
      });
    },
  });

  app.post("/plans/:id/versions/:number/undo", {
    schema: {
      operationId: "undoPlanEditForm",
      ...{ hide: true, params: VersionParams, body: Publication },
    },
    handler: async (request, reply) => {
      const { id: planId, number } = request.params;
      await inFirm(db, signedIn(request).firmId, (tx) =>
        undoEdit(tx, { planId, number }, request.body.version),
      );
      return reply.redirect(`/plans/${planId}/versions/${number}`, 303);
    },
  });

  app.post("/plans/:id/versions/:number/publication", {
    schema: {
      operationId: "publishPlanForm",
      ...{ hide: true, params: VersionParams, body: Publication },
    },
    handler: async (request, reply) => {
      const { id: planId, number } = request.params;
      const { firmId, personId } = signedIn(request);
      await inFirm(db, firmId, (tx) =>
        publishVersion(tx, { planId, number }, request.body.version, personId, now()),
      );
      return reply.redirect(`/plans/${planId}`, 303);
    },
  });
};

export const mayEdit = (request: FastifyRequest): boolean =>
  EDITING.some((role) => signedIn(request).roles.includes(role));

const showNew = (
  request: FastifyRequest,
  reply: FastifyReply,
  typed: FormBody,
  problems?: FieldProblems,
) =>
  sendPage(request, reply, "plan-new", {
    title: say(request.language, "editor.new"),
    ...{ typed, problems },
  });
