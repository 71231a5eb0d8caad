import { inFirm, inFirmAs } from "../../db/scope.ts";
import { matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { keepPassport, readPassport } from "./keep-passport.ts";
import { BatteryPassport, PassportEdit } from "./schemas.ts";

const TAGS = ["Battery passports"];
const PATH = "/api/v1/units/:id/battery-passport";

export const batteryPassportRoutes: Feature = async (app, { db, now }) => {
  app.get(PATH, {
    schema: {
      operationId: "readBatteryPassport",
      summary: "See where a battery's passport is, and what was read off it",
      tags: TAGS,
      params: IdParams,
      response: { 200: BatteryPassport, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const passport = await inFirm(db, signedIn(request).firmId, (tx) =>
        readPassport(tx, request.params.id),
      );
      sendETag(reply, passport.version);
      return passport;
    },
  });

  app.put(PATH, {
    schema: {
      operationId: "putBatteryPassport",
      summary: "Keep a passport's address and the values read off it",
      description:
        "Replaces what was kept; the first time with If-Match of version 0. The ledger of the " +
        "job that installed the unit keeps every version, and its evidence bag states the last.",
      tags: TAGS,
      params: IdParams,
      body: PassportEdit,
      response: { 200: BatteryPassport, ...problems(401, 403, 404, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const session = signedIn(request);
      const by = { personId: session.personId, now: now() };
      const passport = await inFirmAs(db, session, (tx) =>
        keepPassport(tx, request.params.id, version, request.body, by),
      );
      sendETag(reply, passport.version);
      return passport;
    },
  });
};
