import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { Problem } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { noBody, problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { clearFailingAddress, listFailingAddresses } from "./failing-address-store.ts";
import { BounceOutcome, FailingAddressPage, FailingAddressQuery } from "./schemas.ts";
import { takeBounce } from "./take-bounce.ts";

const TAGS = ["Mail"];
const MESSAGE = "message/rfc822";

export const mailBounceRoutes: Feature = async (app, { db, now }) => {
  app.addContentTypeParser(MESSAGE, { parseAs: "buffer" }, (_request, body, done) =>
    done(null, (body as Buffer).toString("utf8")),
  );

  app.post("/api/v1/mail/bounces", {
    schema: {
      operationId: "takeMailBounce",
      summary: "Hand over a delivery report that came back",
      description:
        "The whole message as it came (RFC 3464), at most 1 MB. Marks the mail it is about, and " +
        "the customer's address where it is refused for good. The same report twice is harmless.",
      tags: TAGS,
      consumes: [MESSAGE],
      body: z.string().meta({ format: "binary" }),
      response: { 200: BounceOutcome, ...problems(401, 403, 404, 413, 415, 422) },
    },
    handler: async (request) =>
      inFirm(db, signedIn(request).firmId, (tx) => takeBounce(tx, request.body, now())),
  });

  app.get("/api/v1/mail/failing-addresses", {
    schema: {
      operationId: "listFailingAddresses",
      summary: "List customers whose address was refused for good: nothing goes to it",
      tags: TAGS,
      querystring: FailingAddressQuery,
      response: { 200: FailingAddressPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor } = request.query;
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listFailingAddresses(tx, { after: afterId(cursor), most: limit + 1 }),
      );
      const items = rows.map((row) => ({ ...row, failingSince: row.failingSince.toISOString() }));
      return toPage(request, reply, items, limit, (row) => row.customerId);
    },
  });

  app.delete("/api/v1/mail/failing-addresses/:customerId", {
    schema: {
      operationId: "mendFailingAddress",
      summary: "Say that a customer's address works again; what waits for it goes out",
      tags: TAGS,
      params: z.object({ customerId: z.guid() }),
      response: { 204: noBody(), ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const mended = await inFirm(db, signedIn(request).firmId, (tx) =>
        clearFailingAddress(tx, request.params.customerId),
      );
      if (!mended) {
        throw new Problem("not-found", "Your firm has no customer of this id whose address fails.");
      }
      return reply.code(204).send();
    },
  });
};
