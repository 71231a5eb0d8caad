import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm, inFirmAs, inFirmPipelined } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { say } from "../../language/say.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import {
  type FieldProblems,
  type FormBody,
  readForm,
  refusedFields,
  SINGLE_FIELDS,
  withBlank,
} from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { changeThatMade } from "../changes/store.ts";
import { changesView } from "../changes/view.ts";
import { readFirm } from "../firms/store.ts";
import { readPassport } from "../passports/keep-passport.ts";
import { passportView } from "../passports/view.ts";
import { listProductModels } from "../product-models/store.ts";
import { dueOf } from "../sites/site-view.ts";
import { unitWarrantyView } from "../warranty/unit-view.ts";
import { readUnitLife } from "./life-store.ts";
import { receiveUnit } from "./receive-unit.ts";
import { LIFE_ENTRIES_MOST, NewUnit, UnitEdit } from "./schemas.ts";
import { editUnit, findUnit } from "./store.ts";
import { lifeView } from "./unit-view.ts";

const Query = z.object({ saved: z.guid().optional() });
const Edit = UnitEdit.extend({ version: z.coerce.number().int() });
const MAY_EDIT: readonly string[] = ["owner", "office", "installer"];
const MODELS_MOST = 200;

export const unitDetailPages: Feature = async (app, { db, now }) => {
  const show = async (request: FastifyRequest, reply: FastifyReply, shown: Shown) => {
    const { firmId, roles } = signedIn(request);
    const { language } = request;
    const { id } = shown;
    const life = await inFirmPipelined(db, firmId, (pipeline) =>
      readUnitLife(pipeline, id, LIFE_ENTRIES_MOST),
    );
    if (!life) throw notFound("unit");
    const due = life.siteId && (await dueOf(db, firmId, life.siteId, now()));
    const mayUndo = roles.some((role) => MAY_EDIT.includes(role));
    const asks = { kind: "unit", subjectId: id, path: `/units/${id}`, mayUndo } as const;
    const page = await inFirm(db, firmId, async (tx) => ({
      ...lifeView(life, due || undefined, {
        ...{ language, timeZone: (await readFirm(tx)).timeZone },
      }),
      passport: life.kind === "battery-pack" && passportView(await readPassport(tx, id), language),
      warranty: await unitWarrantyView(tx, id, { now: now(), language, roles }),
      ...(await changesView(tx, { ...asks, saved: shown.saved }, language)),
    }));
    const { note, hardwareRevision, version } = life;
    return sendPage(request, reply, "unit", {
      ...{ title: life.serial, ...page, problems: shown.problems, mayEdit: mayUndo },
      typed: shown.typed ?? { note, hardwareRevision, version },
      styles: ["registry"],
    });
  };

  app.get("/units/:id", {
    schema: { operationId: "unitPage", hide: true, params: IdParams, querystring: Query },
    handler: async (request, reply) =>
      show(request, reply, { id: request.params.id, saved: request.query.saved }),
  });

  app.post("/units/:id", {
    schema: { operationId: "editUnitForm", hide: true, params: IdParams, body: SINGLE_FIELDS },
    handler: async (request, reply) => {
      const typed = request.body;
      const { id } = request.params;
      const again = (problems: FieldProblems) =>
        show(request, reply.code(422), { id, typed, problems });
      const read = readForm(Edit, {
        ...typed,
        note: typed.note || null,
        hardwareRevision: typed.hardwareRevision || null,
      });
      if (!read.ok) return again(read.problems);
      const { version, ...change } = read.value;
      try {
        const saved = await inFirmAs(db, signedIn(request), async (tx) => {
          if (!(await findUnit(tx, id))) throw notFound("unit");
          if (!(await editUnit(tx, id, version, change))) throw editedMeanwhile();
          return changeThatMade(tx, id, version + 1);
        });
        return reply.redirect(`/units/${id}${saved ? `?saved=${saved}` : ""}`, 303);
      } catch (error) {
        return again(refusedFields(error));
      }
    },
  });

  const showNew = async (request: FastifyRequest, reply: FastifyReply, shown: Partial<Shown>) => {
    const models = await inFirm(db, signedIn(request).firmId, (tx) =>
      listProductModels(tx, { most: MODELS_MOST }),
    );
    return sendPage(request, reply, "unit-form", {
      title: say(request.language, "registry.newUnit"),
      ...{ typed: {}, ...shown, hasModels: models.length > 0 },
      models: withBlank(
        models.map(({ id, code, name }) => ({ value: id, text: `${code} ${name}` })),
        shown.typed?.modelId,
      ),
    });
  };

  app.get("/units/new", {
    schema: { operationId: "newUnitPage", hide: true },
    handler: async (request, reply) => showNew(request, reply, {}),
  });

  app.post("/units", {
    schema: { operationId: "addUnitForm", hide: true, body: SINGLE_FIELDS },
    handler: async (request, reply) => {
      const typed = request.body;
      const read = readForm(NewUnit, typed);
      if (!read.ok) return showNew(request, reply.code(422), { typed, problems: read.problems });
      try {
        const actor = signedIn(request);
        const { unit } = await inFirmAs(db, actor, (tx) =>
          receiveUnit(tx, { ...read.value, personId: actor.personId, at: now() }),
        );
        return reply.redirect(`/units/${unit.id}`, 303);
      } catch (error) {
        return showNew(request, reply.code(422), { typed, problems: refusedFields(error) });
      }
    },
  });
};

interface Shown {
  id: string;
  saved?: string | undefined;
  typed?: FormBody;
  problems?: FieldProblems;
}
