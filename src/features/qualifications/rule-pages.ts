// Kinds of qualification, and which jobs ask for which.
import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm, inFirmAs } from "../../db/scope.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import {
  type Choice,
  type FieldProblems,
  type FormBody,
  readForm,
  refusedFields,
  SINGLE_FIELDS,
  withBlank,
} from "../../web/form.ts";
import { plansWork } from "../../web/office.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { JOB_KINDS } from "../jobs/schemas.ts";
import { askFor, changeKind, kindNameTaken, readKind } from "./keep-qualification.ts";
import { addKind, listKinds } from "./kind-store.ts";
import { findRequirement, listRequirements, removeRequirement } from "./requirement-store.ts";
import { NewQualificationKind, NewRequirement, QualificationKindEdit } from "./schemas.ts";
import { shownRequirement } from "./shown.ts";
import { withinQualifications } from "./within.ts";

const PATH = "/qualifications/rules";
const KINDS_MOST = 200;
const REQUIREMENTS_MOST = 500;
const WarnDays = {
  warnDays: z.coerce.number().pipe(QualificationKindEdit.shape.warnDays.unwrap()),
};
const KindFields = NewQualificationKind.extend(WarnDays);
const KindEdit = QualificationKindEdit.extend({
  ...WarnDays,
  version: z.coerce.number().int(),
  archived: z.stringbool().default(false),
});

interface Failed {
  kind?: FormBody;
  asked?: FormBody;
  problems?: FieldProblems;
}

export const qualificationRulePages: Feature = async (app, { db, now }) => {
  const show = async (
    request: FastifyRequest,
    reply: FastifyReply,
    { kind = { warnDays: "60" }, asked = {}, problems }: Failed,
    removed?: ReturnType<typeof shownRequirement>,
  ) => {
    const { language } = request;
    const { firmId, roles } = signedIn(request);
    const page = await inFirm(db, firmId, async (tx) => ({
      kinds: await listKinds(tx, { archived: false, most: KINDS_MOST }),
      archived: await listKinds(tx, { archived: true, most: KINDS_MOST }),
      rules: (await listRequirements(tx, { most: REQUIREMENTS_MOST })).map(shownRequirement),
    }));
    const jobName = (jobKind: (typeof JOB_KINDS)[number]) => say(language, `job.kind.${jobKind}`);
    const told = (rule: ReturnType<typeof shownRequirement>) => ({
      ...rule,
      job: jobName(rule.jobKind),
      of: say(language, `qualifications.askedOf.${rule.askedOf}`),
    });
    const inOrder = JOB_KINDS.flatMap((name) => page.rules.filter((one) => one.jobKind === name));
    return sendPage(request, reply, "qualification-rules", {
      title: say(language, "qualifications.rules"),
      within: withinQualifications(PATH, language),
      ...{ kinds: page.kinds, archived: page.archived, rules: inOrder.map(told) },
      ...{ kind, asked, problems, styles: ["registry", "hours"] },
      removed: removed && told(removed),
      mayKeep: plansWork(request),
      mayAsk: roles.some((role) => role === "owner" || role === "manager"),
      jobKinds: withBlank(
        JOB_KINDS.map((value) => ({ value, text: jobName(value) })),
        asked.jobKind,
      ),
      kindChoices: withBlank(
        page.kinds.map(({ id, name }) => ({ value: id, text: name })),
        asked.kindId,
      ),
      askedOf: askedOfChoices(language),
    });
  };

  app.get(PATH, {
    schema: { operationId: "qualificationRulesPage", hide: true },
    handler: async (request, reply) => show(request, reply, {}),
  });

  app.post("/qualifications/kinds", {
    schema: { operationId: "addQualificationKindForm", hide: true, body: SINGLE_FIELDS },
    handler: async (request, reply) => {
      const kind = request.body;
      const again = (problems: FieldProblems) => show(request, reply.code(422), { kind, problems });
      const read = readForm(KindFields, kind);
      if (!read.ok) return again(read.problems);
      try {
        await inFirmAs(db, signedIn(request), async (tx) => {
          if (!(await addKind(tx, read.value))) throw kindNameTaken(read.value.name);
        });
      } catch (error) {
        return again(refusedFields(error));
      }
      return reply.redirect(PATH, 303);
    },
  });

  const showKind = async (
    request: FastifyRequest,
    reply: FastifyReply,
    id: string,
    failed?: { typed: FormBody; problems: FieldProblems },
  ) => {
    const row = await inFirm(db, signedIn(request).firmId, (tx) => readKind(tx, id));
    const { name, warnDays, version, archivedAt } = row;
    const typed = { name, warnDays: String(warnDays), version: String(version) };
    return sendPage(request, reply, "qualification-kind", {
      ...{ id, title: name, typed: { ...typed, archived: String(archivedAt !== null) } },
      ...failed,
    });
  };

  app.get("/qualifications/kinds/:id", {
    schema: { operationId: "qualificationKindPage", hide: true, params: IdParams },
    handler: async (request, reply) => showKind(request, reply, request.params.id),
  });

  app.post("/qualifications/kinds/:id", {
    schema: {
      operationId: "editQualificationKindForm",
      hide: true,
      params: IdParams,
      body: SINGLE_FIELDS,
    },
    handler: async (request, reply) => {
      const typed = request.body;
      const { id } = request.params;
      const again = (problems: FieldProblems) =>
        showKind(request, reply.code(422), id, { typed, problems });
      const read = readForm(KindEdit, typed);
      if (!read.ok) return again(read.problems);
      const { version, ...change } = read.value;
      try {
        await inFirmAs(db, signedIn(request), (tx) => changeKind(tx, id, version, change, now()));
      } catch (error) {
        return again(refusedFields(error));
      }
      return reply.redirect(PATH, 303);
    },
  });

  app.post("/qualifications/requirements", {
    schema: { operationId: "addRequirementForm", hide: true, body: SINGLE_FIELDS },
    handler: async (request, reply) => {
      const asked = request.body;
      const again = (problems: FieldProblems) =>
        show(request, reply.code(422), { asked, problems });
      const read = readForm(NewRequirement, asked);
      if (!read.ok) return again(read.problems);
      try {
        await inFirmAs(db, signedIn(request), (tx) => askFor(tx, read.value));
      } catch (error) {
        return again(refusedFields(error));
      }
      return reply.redirect(PATH, 303);
    },
  });

  app.post("/qualifications/requirements/:id/removal", {
    schema: { operationId: "removeRequirementForm", hide: true, params: IdParams },
    handler: async (request, reply) => {
      const { id } = request.params;
      const removed = await inFirmAs(db, signedIn(request), async (tx) => {
        const row = await findRequirement(tx, id);
        if (row) await removeRequirement(tx, id);
        return row && shownRequirement(row);
      });
      if (!removed) return reply.redirect(PATH, 303);
      return show(request, reply, {}, removed);
    },
  });
};

const askedOfChoices = (language: ShownLanguage): Choice[] =>
  NewRequirement.shape.askedOf
    .unwrap()
    .options.map((value) => ({ value, text: say(language, `qualifications.askedOf.${value}`) }));
