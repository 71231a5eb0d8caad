import { inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { noBody, problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { findPerson } from "../people/store.ts";
import { endAccess, giveAccess } from "./give-access.ts";
import { AuditAccess, AuditAccessList, DAYS_USUAL, NewAccess } from "./schemas.ts";
import { type AccessRow, listAccesses } from "./store.ts";

const TAGS = ["People"];
const PATH = "/api/v1/people/:id/audit-access";
export const ACCESSES_SHOWN = 100;

export const auditAccessRoutes: Feature = async (app, { db, liveness, now }) => {
  app.get(PATH, {
    schema: {
      operationId: "listAuditAccess",
      summary: "See what an auditor may look at, and what they might before",
      description:
        "The latest first, 100 at most; the one that is not withdrawn counts. Whoever becomes an " +
        `auditor alone has the whole firm for ${DAYS_USUAL} days; without any access an auditor ` +
        "sees nothing.",
      tags: TAGS,
      params: IdParams,
      response: { 200: AuditAccessList, ...problems(401, 403, 404, 422) },
    },
    handler: async (request) => {
      const { id } = request.params;
      const rows = await inFirm(db, signedIn(request).firmId, async (tx) => {
        if (!(await findPerson(tx, id))) throw notFound("person");
        return listAccesses(tx, id, ACCESSES_SHOWN);
      });
      return { items: rows.map(shown), next: null };
    },
  });

  app.put(PATH, {
    schema: {
      operationId: "giveAuditAccess",
      summary: "Give an auditor access to part of the firm, for a time",
      description: "Takes the place of the one before, which stays on record.",
      tags: TAGS,
      params: IdParams,
      body: NewAccess,
      response: { 200: AuditAccess, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request) => {
      const { firmId, personId } = signedIn(request);
      const row = await inFirm(db, firmId, (tx) =>
        giveAccess(tx, request.params.id, request.body, { personId, now: now() }),
      );
      liveness.forget();
      return shown(row);
    },
  });

  app.delete(PATH, {
    schema: {
      operationId: "withdrawAuditAccess",
      summary: "Withdraw an auditor's access at once",
      tags: TAGS,
      params: IdParams,
      response: { 204: noBody(), ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      await inFirm(db, firmId, (tx) => endAccess(tx, request.params.id, { personId, now: now() }));
      liveness.forget();
      return reply.code(204).send();
    },
  });
};

const day = (date: Date): string => date.toISOString().slice(0, 10);

const shown = (row: AccessRow) => ({
  ...{ id: row.id, personId: row.personId, outside: row.outside },
  ...{ from: day(row.fromOn), until: row.untilOn && day(row.untilOn) },
  scope: {
    ...{ modelIds: row.modelIds, siteIds: row.siteIds },
    period:
      row.periodFrom && row.periodTo ? { from: day(row.periodFrom), to: day(row.periodTo) } : null,
  },
  ...{ givenByName: row.givenBy.name, givenAt: row.givenAt.toISOString() },
  withdrawnByName: row.withdrawnBy?.name ?? null,
  withdrawnAt: row.withdrawnAt?.toISOString() ?? null,
});
