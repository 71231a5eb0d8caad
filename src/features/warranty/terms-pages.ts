// A model's warranty terms: every version, and the form of the next one.
import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { type FieldProblems, type FormBody, refusedFields, SINGLE_FIELDS } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { sayRefusal } from "../changes/or-refusal.ts";
import { todayOfFirm } from "../firms/today.ts";
import { findProductModel } from "../product-models/store.ts";
import { domainTerms } from "./judge.ts";
import { keepTerms, takeTermsBack } from "./keep-terms.ts";
import { dayText } from "./keep-warranty.ts";
import { listTerms, type TermsRow } from "./store.ts";
import { flatNames, readTermsForm, typedTerms } from "./terms-form.ts";
import { versionOf } from "./terms-view.ts";

const VERSIONS_SHOWN = 20;
const Removal = z.object({ number: z.coerce.number().int() });

interface Shown {
  id: string;
  done?: { what: "kept" | "removed"; number: number };
  typed?: FormBody;
  problems?: FieldProblems;
}

export const warrantyTermsPages: Feature = async (app, { db, now }) => {
  const show = async (request: FastifyRequest, reply: FastifyReply, shown: Shown) => {
    const { language } = request;
    const { firmId, roles } = signedIn(request);
    const { id, done, typed, problems } = shown;
    const page = await inFirm(db, firmId, async (tx) => {
      const model = await findProductModel(tx, id);
      if (!model) throw notFound("product model");
      const rows = await listTerms(tx, id, { most: VERSIONS_SHOWN });
      return { model, rows, today: await todayOfFirm(tx, now()) };
    });
    const [latest] = page.rows;
    return sendPage(request, reply, "warranty-terms", {
      title: say(language, "warranty.termsOf", { model: page.model.code }),
      ...{ model: page.model, done, problems, styles: ["registry"] },
      versions: page.rows.map((row, index) => versionOf(row, index === 0, language)),
      typed: typed ?? nextOf(latest, page.today),
      mayEdit: roles.some((role) => role === "owner" || role === "manager"),
    });
  };

  app.get("/product-models/:id/warranty", {
    schema: { operationId: "warrantyTermsPage", hide: true, params: IdParams },
    handler: async (request, reply) => show(request, reply, { id: request.params.id }),
  });

  app.post("/product-models/:id/warranty", {
    schema: {
      operationId: "warrantyTermsForm",
      ...{ hide: true, params: IdParams, body: SINGLE_FIELDS },
    },
    handler: async (request, reply) => {
      const typed = request.body;
      const { id } = request.params;
      const again = (problems: FieldProblems) =>
        show(request, reply.code(422), { id, typed, problems });
      const read = readTermsForm(typed);
      if (!read.ok) return again(read.problems);
      const { firmId, personId } = signedIn(request);
      try {
        const { number } = await inFirm(db, firmId, (tx) =>
          keepTerms(tx, id, read.value, { personId, now: now() }),
        );
        return show(request, reply, { id, done: { what: "kept", number } });
      } catch (error) {
        return again(flatNames(refusedFields(error)));
      }
    },
  });

  app.post("/product-models/:id/warranty/removal", {
    schema: {
      operationId: "removeWarrantyTermsForm",
      ...{ hide: true, params: IdParams, body: Removal },
    },
    handler: async (request, reply) => {
      const { id } = request.params;
      const { number } = request.body;
      try {
        const row = await inFirm(db, signedIn(request).firmId, (tx) =>
          takeTermsBack(tx, id, number),
        );
        // What was taken back stands in the form, so that one press stores it again.
        return show(request, reply, { id, typed: typedOf(row), done: { what: "removed", number } });
      } catch (error) {
        return sayRefusal(request, reply, `/product-models/${id}/warranty`, error);
      }
    },
  });
};

const typedOf = (row: TermsRow): FormBody =>
  typedTerms(domainTerms(row), { appliesFrom: dayText(row.appliesFrom), source: row.source });

/** The next version starts as the latest one, from today on. */
const nextOf = (latest: TermsRow | undefined, today: string): FormBody =>
  latest ? { ...typedOf(latest), appliesFrom: today } : { appliesFrom: today };
