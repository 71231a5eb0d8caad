import { inFirm } from "../../db/scope.ts";
import type { Feature } from "../../web/feature.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { readMissing } from "./missing.ts";
import { Missing, MissingQuery } from "./missing-schemas.ts";

export const missingRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/stock/missing", {
    schema: {
      operationId: "readMissing",
      summary: "See what is missing for the visits of a day",
      description:
        "Units that are not at hand, consumables that fall short (the earlier visit is served " +
        "first), and instruments that are not booked or not fit when the visit begins.",
      tags: ["Stock"],
      querystring: MissingQuery,
      response: { 200: Missing, ...problems(401, 403, 422) },
    },
    handler: async (request) => {
      const found = await inFirm(db, signedIn(request).firmId, (tx) =>
        readMissing(tx, request.query.day, now()),
      );
      return { ...found, next: null };
    },
  });
};
