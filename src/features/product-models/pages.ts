import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { FIRMWARE_SCHEMES } from "../../domain/firmware/levels.ts";
import { CHECK_SCHEMES } from "../../domain/identifiers/check-schemes.ts";
import { ModelKit, type ModelKitLine } from "../../domain/kit/line.ts";
import { notFound } from "../../errors.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { type FieldProblems, type FormBody, readForm, refusedFields } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { A_PAGE, asked, sortedPage, sortedQuery, sortingOf } from "../../web/sorted-list.ts";
import { modelKitText, readModelKit } from "../kit/kit-lines.ts";
import { latestTerms } from "../warranty/terms-view.ts";
import { attributeLines, readAttributeLines } from "./attribute-lines.ts";
import { NewProductModel, ProductModelEdit } from "./schemas.ts";
import { changeModel, setUpModel } from "./set-up-model.ts";
import { COLUMNS, sortedModels } from "./sorted-store.ts";
import { findProductModel, type ProductModelFields } from "./store.ts";

const USUAL = "code";
const KINDS = NewProductModel.shape.kind.options;
const PageQuery = z.object({
  ...sortedQuery(COLUMNS),
  code: asked(z.string().trim().max(40)),
  kind: asked(z.enum(KINDS)),
});
const FormFields = z.record(z.string(), z.string().max(20_000));
const Edit = ProductModelEdit.extend({ version: z.coerce.number().int() });

interface Shown {
  id?: string;
  code?: string;
  typed: FormBody;
  problems?: FieldProblems;
  /** The latest version of the warranty's terms. */
  warranty?: Awaited<ReturnType<typeof latestTerms>>;
}

export const productModelPages: Feature = async (app, { db }) => {
  app.get("/product-models", {
    schema: { operationId: "productModelsPage", hide: true, querystring: PageQuery },
    handler: async (request, reply) => {
      const { query, language } = request;
      const { sort: _sort, cursor: _cursor, ...filter } = query;
      const sorting = sortingOf(query, USUAL);
      const found = await inFirm(db, signedIn(request).firmId, (tx) =>
        sortedModels(tx, { ...filter, sorting, most: A_PAGE + 1 }),
      );
      const { rows, list } = sortedPage(found, {
        ...{ path: "/product-models", columns: COLUMNS, usual: USUAL, query },
        exportPath: "/api/v1/exports/product-models.csv",
      });
      return sendPage(request, reply, "product-models", {
        title: say(request.language, "models.title"),
        models: rows.map((model) => ({
          ...model,
          kindName: say(request.language, `models.kind.${model.kind as (typeof KINDS)[number]}`),
        })),
        ...{ list, filter },
        kinds: KINDS.map((value) => ({ value, text: say(language, `models.kind.${value}`) })),
        filtered: Object.values(filter).some((value) => value !== undefined),
        mayEdit: mayEdit(request),
      });
    },
  });

  app.get("/product-models/new", {
    schema: { operationId: "newProductModelPage", hide: true },
    handler: async (request, reply) =>
      showForm(request, reply, { typed: { serialCheck: "none", firmwareScheme: "semver" } }),
  });

  app.post("/product-models", {
    schema: { operationId: "addProductModelForm", hide: true, body: FormFields },
    handler: async (request, reply) => {
      const typed = request.body;
      const read = readModel(NewProductModel, typed);
      if (!read.ok) return showForm(request, reply.code(422), { typed, problems: read.problems });
      try {
        await inFirm(db, signedIn(request).firmId, (tx) => setUpModel(tx, read.value));
      } catch (error) {
        return showForm(request, reply.code(422), { typed, problems: refusedFields(error) });
      }
      return reply.redirect("/product-models", 303);
    },
  });

  app.get("/product-models/:id", {
    schema: { operationId: "productModelPage", hide: true, params: IdParams },
    handler: async (request, reply) => {
      const { id } = request.params;
      const { row, warranty } = await inFirm(db, signedIn(request).firmId, async (tx) => ({
        row: await findProductModel(tx, id),
        warranty: await latestTerms(tx, id, request.language),
      }));
      if (!row) throw notFound("product model");
      const { code, name, maker, kind, serialMask, serialCheck, firmwareScheme, version } = row;
      const attributes = attributeLines(row.attributes as ProductModelFields["attributes"]);
      const kit = modelKitText(ModelKit.parse(row.kit));
      const typed = { name, maker, kind, serialMask, serialCheck, firmwareScheme, attributes, kit };
      const shown = { id, code, warranty, typed: { ...typed, version: String(version) } };
      return showForm(request, reply, shown);
    },
  });

  app.post("/product-models/:id", {
    schema: { operationId: "editProductModelForm", hide: true, params: IdParams, body: FormFields },
    handler: async (request, reply) => {
      const { code = "", ...typed } = request.body;
      const { id } = request.params;
      const row = await inFirm(db, signedIn(request).firmId, (tx) => findProductModel(tx, id));
      if (!row) throw notFound("product model");
      const read = readModel(Edit, typed, ModelKit.parse(row.kit));
      const again = (problems: FieldProblems) =>
        showForm(request, reply.code(422), { id, code, typed, problems });
      if (!read.ok) return again(read.problems);
      const { version, ...change } = read.value;
      try {
        await inFirm(db, signedIn(request).firmId, (tx) => changeModel(tx, id, version, change));
      } catch (error) {
        return again(refusedFields(error));
      }
      return reply.redirect("/product-models", 303);
    },
  });
};

const mayEdit = (request: FastifyRequest): boolean =>
  signedIn(request).roles.some((role) => role === "owner" || role === "office");

function showForm(request: FastifyRequest, reply: FastifyReply, shown: Shown) {
  const choices = (names: readonly string[]) => names.map((name) => ({ value: name, text: name }));
  return sendPage(request, reply, "product-model", {
    title: shown.code ?? say(request.language, "models.new"),
    ...shown,
    kinds: KINDS.map((kind) => ({
      value: kind,
      text: say(request.language, `models.kind.${kind}`),
    })),
    checks: choices(CHECK_SCHEMES),
    schemes: choices(FIRMWARE_SCHEMES),
    mayEdit: mayEdit(request),
  });
}

/** The form's lines become the attributes and the kit that the schema of the interface wants. */
function readModel<Schema extends z.ZodType>(
  schema: Schema,
  typed: Record<string, string>,
  before: readonly ModelKitLine[] = [],
) {
  const { attributes = "", kit = "", ...rest } = typed;
  const lines = readAttributeLines(attributes);
  if (!lines.ok) return { ok: false as const, problems: { attributes: lines.problem } };
  const kitLines = readModelKit(kit, before);
  if (!kitLines.ok) return { ok: false as const, problems: { kit: kitLines.problem } };
  return readForm(schema, { ...rest, attributes: lines.attributes, kit: kitLines.kit });
}
