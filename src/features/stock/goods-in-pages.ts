import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm, inFirmAs } from "../../db/scope.ts";
import { CHECK_RESULTS, UNPACK_CHECKS } from "../../domain/kit/unpack-checks.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { dayAndTime } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { type FieldProblems, type FormBody, readForm } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { asked } from "../../web/sorted-list.ts";
import { readFirm } from "../firms/store.ts";
import { listProductModels } from "../product-models/store.ts";
import { findUnit } from "../units/store.ts";
import { goodsInProblems } from "./goods-in-problems.ts";
import { labelSerial } from "./label-serial.ts";
import { NewGoodsIn } from "./schemas.ts";
import { listStockUnits, stockPlaces } from "./store.ts";
import { takeGoodsIn } from "./take-goods-in.ts";
import { withinStock } from "./within.ts";

const MODELS_MOST = 200;
const PLACES_MOST = 100;
const LAST_SHOWN = 10;
const FormFields = z.record(z.string(), z.string().max(2000));
const Query = z.object({
  taken: asked(z.guid()),
  modelId: asked(z.guid()),
  place: asked(z.string().max(60)),
  deliveryNote: asked(z.string().max(60)),
});

interface Shown {
  typed: FormBody;
  problems?: FieldProblems;
  takenId?: string;
}

export const goodsInPages: Feature = async (app, { db, now }) => {
  const show = async (request: FastifyRequest, reply: FastifyReply, shown: Shown) => {
    const { language } = request;
    const { firmId, roles } = signedIn(request);
    const data = await inFirm(db, firmId, async (tx) => ({
      firm: await readFirm(tx),
      models: await listProductModels(tx, { most: MODELS_MOST }),
      places: await stockPlaces(tx, PLACES_MOST),
      last: await listStockUnits(tx, { most: LAST_SHOWN }),
      taken: shown.takenId ? await findUnit(tx, shown.takenId) : undefined,
    }));
    const { timeZone } = data.firm;
    return sendPage(request, reply, "goods-in", {
      title: say(language, "kit.goodsIn"),
      styles: ["job"],
      scripts: ["scan-code"],
      within: withinStock("/goods-in", language),
      ...shown,
      models: data.models.map(({ id, code, name }) => ({ value: id, text: `${code} ${name}` })),
      places: data.places,
      taken: data.taken,
      checks: checksOf(shown, language),
      last: data.last.map((row) => ({
        ...row,
        at: row.receivedAt && dayAndTime(language, row.receivedAt, timeZone),
        conditionName: row.condition && say(language, `kit.condition.${row.condition}`),
      })),
      mayTake: roles.some((role) => ["owner", "office", "installer"].includes(role)),
    });
  };

  app.get("/goods-in", {
    schema: { operationId: "goodsInPage", hide: true, querystring: Query },
    handler: async (request, reply) => {
      const { taken, ...typed } = request.query;
      return show(request, reply, { typed, ...(taken ? { takenId: taken } : {}) });
    },
  });

  app.post("/goods-in", {
    schema: { operationId: "goodsInForm", hide: true, body: FormFields },
    handler: async (request, reply) => {
      const typed: FormBody = request.body;
      const again = (problems: FieldProblems) =>
        show(request, reply.code(422), { typed, problems });
      const { modelId, hardwareRevision, place, deliveryNote, note } = request.body;
      const scanned = labelSerial(request.body.serial ?? "");
      if (!scanned.ok) return again({ serial: scanned.problem });
      const checks = Object.fromEntries(
        UNPACK_CHECKS.map((check) => [check, request.body[check] ?? "not-looked-at"]),
      );
      const fields = { modelId, hardwareRevision, place, deliveryNote, note };
      const read = readForm(NewGoodsIn, { ...fields, serial: scanned.serial, checks });
      if (!read.ok) return again(read.problems);
      const session = signedIn(request);
      try {
        const { unit } = await inFirmAs(db, session, (tx) =>
          takeGoodsIn(tx, read.value, session.personId, now()),
        );
        const next = new URLSearchParams({ taken: unit.id, modelId: unit.modelId });
        next.set("place", read.value.place);
        if (read.value.deliveryNote) next.set("deliveryNote", read.value.deliveryNote);
        return reply.redirect(`/goods-in?${next}`, 303);
      } catch (error) {
        return again(goodsInProblems(error));
      }
    },
  });
};

function checksOf({ typed, problems }: Shown, language: ShownLanguage) {
  return UNPACK_CHECKS.map((check) => ({
    check,
    label: say(language, `kit.check.${check}`),
    problem: problems?.[check],
    results: CHECK_RESULTS.map((value) => ({
      value,
      text: say(language, `kit.result.${value}`),
      chosen: (typed[check] ?? "not-looked-at") === value,
    })),
  }));
}
