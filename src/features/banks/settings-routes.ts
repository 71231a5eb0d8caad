import { inFirm } from "../../db/scope.ts";
import { BANK_CAUTION } from "../../domain/bank/bank-settings.ts";
import { Problem } from "../../errors.ts";
import { DRAWING, DRAWING_QUERY, drawnOr, sendDrawing, wantsDrawing } from "../../web/drawing.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { drawnSettings } from "./drawn-settings.ts";
import { readBankRow, type SetBank, settingsOf } from "./settings.ts";
import { BankSettings, SettingsQuery, SettingsTrial, TriedSettings } from "./settings-schemas.ts";
import { type TriedBank, trySettings } from "./try-settings.ts";

const TAGS = ["Banks"];

export const bankSettingsRoutes: Feature = async (app, { db }) => {
  app.get("/api/v1/banks/:id/settings", {
    schema: {
      operationId: "readBankSettings",
      summary: "Read what to set on each pack of a bank, and the addresses that makes",
      description: BANK_CAUTION,
      tags: TAGS,
      params: IdParams,
      querystring: SettingsQuery,
      response: { 200: BankSettings, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request) => {
      const bank = await inFirm(db, signedIn(request).firmId, (tx) =>
        readBankRow(tx, request.params.id),
      );
      const set = settingsOf(bank, request.query.protocol);
      if (set instanceof Problem) throw set;
      return { bankId: bank.id, ...shown(set), packs: set.packs };
    },
  });

  app.get("/api/v1/banks/:id/settings.svg", {
    schema: {
      operationId: "drawBankSettings",
      summary: "Draw the switches of each pack of a bank as they have to stand",
      description: BANK_CAUTION,
      tags: TAGS,
      params: IdParams,
      querystring: SettingsQuery,
      response: { 200: DRAWING, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) => {
      const bank = await inFirm(db, signedIn(request).firmId, (tx) =>
        readBankRow(tx, request.params.id),
      );
      const set = settingsOf(bank, request.query.protocol);
      if (set instanceof Problem) throw set;
      return sendDrawing(reply, drawnSettings(set));
    },
  });

  app.post("/api/v1/bank-settings", {
    schema: {
      operationId: "tryBankSettings",
      summary: "Try a switch map without keeping it, and hold found positions against it",
      description: `A map that gives two packs one address is refused. ${BANK_CAUTION}`,
      tags: TAGS,
      querystring: DRAWING_QUERY,
      body: SettingsTrial,
      response: {
        200: drawnOr(TriedSettings, "The settings, or their drawing"),
        ...problems(401, 403, 422),
      },
    },
    handler: async (request, reply) => {
      const tried = trySettings(request.body);
      if (wantsDrawing(request, request.query)) return sendDrawing(reply, drawnSettings(tried));
      return { ...shown(tried), packs: tried.packs, differences: tried.differences };
    },
  });
};

function shown({ map, protocol, check }: SetBank | TriedBank) {
  return {
    productModel: map.productModel,
    source: map.source,
    protocol: { id: protocol.id, name: protocol.name },
    switches: map.switches.map(({ id, label, kind }) => ({ id, label, kind })),
    clashes: check.clashes,
    gaps: check.gaps,
    sentences: check.sentences,
    caution: BANK_CAUTION,
  };
}
