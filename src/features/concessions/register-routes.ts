import { inFirm } from "../../db/scope.ts";
import type { Feature } from "../../web/feature.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { registeredConcessions } from "./register-store.ts";
import { shownConcession } from "./register-view.ts";
import { RegisterPage, RegisterQuery } from "./schemas.ts";

export const concessionRegisterRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/concessions", {
    schema: {
      operationId: "listAllConcessions",
      summary: "List the concessions of all jobs, the latest first",
      tags: ["Concessions"],
      querystring: RegisterQuery,
      response: { 200: RegisterPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, ...filter } = request.query;
      const before = afterId(cursor);
      const after = before === undefined ? undefined : { text: before, id: before };
      const sorting = { column: "id", descending: true, after };
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        registeredConcessions(tx, { ...filter, sorting, most: limit + 1 }, now()),
      );
      const items = rows.map((row) => shownConcession(row, now()));
      return toPage(request, reply, items, limit, ({ id }) => id);
    },
  });
};
