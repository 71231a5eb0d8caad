// The list of claims, and the form that opens one for a unit.
import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm, inFirmAs } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import {
  type FieldProblems,
  type FormBody,
  readForm,
  refusedFields,
  SINGLE_FIELDS,
} from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { A_PAGE, asked, sortedPage, sortedQuery, sortingOf } from "../../web/sorted-list.ts";
import { findUnit } from "../units/store.ts";
import { CLAIM_STATES, NewClaim } from "./claim-schemas.ts";
import { jobsOfUnit, serialsOf } from "./claim-store.ts";
import { claimTag } from "./claim-view.ts";
import { openClaim } from "./keep-claim.ts";
import { CLAIM_COLUMNS, sortedClaims } from "./sorted-claims-store.ts";
import { unitWarrantyView } from "./unit-view.ts";

const PATH = "/warranty/claims";
const USUAL = "-opened";
const PageQuery = z.object({
  ...sortedQuery(CLAIM_COLUMNS),
  state: asked(z.enum(CLAIM_STATES)),
  unitId: asked(z.guid()),
});
const NewQuery = z.object({ unitId: z.guid().optional() });

export const warrantyClaimPages: Feature = async (app, { db, now }) => {
  app.get(PATH, {
    schema: { operationId: "warrantyClaimsPage", hide: true, querystring: PageQuery },
    handler: async (request, reply) => {
      const { language } = request;
      const { query } = request;
      const { sort: _sort, cursor: _cursor, ...filter } = query;
      const asks = { ...filter, sorting: sortingOf(query, USUAL), most: A_PAGE + 1 };
      const page = await inFirm(db, signedIn(request).firmId, async (tx) => {
        const rows = await sortedClaims(tx, asks);
        const serials = await serialsOf(tx, [...new Set(rows.map(({ unitId }) => unitId))]);
        return { rows, serials };
      });
      const { rows, list } = sortedPage(page.rows, {
        ...{ path: PATH, columns: CLAIM_COLUMNS, usual: USUAL, query },
        exportPath: "/api/v1/exports/warranty-claims.csv",
      });
      return sendPage(request, reply, "warranty-claims", {
        title: say(language, "claim.title"),
        filter,
        rows: rows.map((row) => ({
          ...{ id: row.id, reference: row.reference, unitId: row.unitId, fault: row.fault },
          ...{ serial: page.serials.get(row.unitId), makerReference: row.makerReference },
          ...claimTag(row, language),
          opened: plainDay(language, row.createdAt.toISOString().slice(0, 10)),
        })),
        states: CLAIM_STATES.map((name) => ({
          ...{ name, chosen: name === filter.state, text: say(language, `claim.state.${name}`) },
        })),
        filtered: filter.state !== undefined || filter.unitId !== undefined,
        list,
      });
    },
  });

  const showNew = async (
    request: FastifyRequest,
    reply: FastifyReply,
    unitId: string,
    failed?: { typed: FormBody; problems: FieldProblems },
  ) => {
    const { language } = request;
    const { firmId, roles } = signedIn(request);
    const page = await inFirm(db, firmId, async (tx) => {
      const unit = await findUnit(tx, unitId);
      if (!unit) throw notFound("unit");
      const warranty = await unitWarrantyView(tx, unitId, { now: now(), language, roles });
      return { unit, warranty, jobs: await jobsOfUnit(tx, unitId) };
    });
    return sendPage(request, reply, "warranty-claim-new", {
      title: say(language, "claim.newFor", { serial: page.unit.serial }),
      ...{ unit: page.unit, warranty: page.warranty, problems: failed?.problems },
      typed: failed?.typed ?? { jobId: page.jobs[0]?.id },
      jobs: page.jobs.map(({ id, reference, title }) => ({
        ...{ value: id, text: `${reference} ${title}` },
      })),
      styles: ["registry"],
    });
  };

  app.get(`${PATH}/new`, {
    schema: { operationId: "newWarrantyClaimPage", hide: true, querystring: NewQuery },
    handler: async (request, reply) => {
      const { unitId } = request.query;
      // A claim is about a unit: without one, the list says where to begin.
      return unitId ? showNew(request, reply, unitId) : reply.redirect(PATH, 303);
    },
  });

  app.post(PATH, {
    schema: { operationId: "openWarrantyClaimForm", hide: true, body: SINGLE_FIELDS },
    handler: async (request, reply) => {
      const typed = request.body;
      const unitId = z.guid().safeParse(typed.unitId);
      if (!unitId.success) return reply.redirect(PATH, 303);
      const again = (problems: FieldProblems) =>
        showNew(request, reply.code(422), unitId.data, { typed, problems });
      const read = readForm(NewClaim, typed);
      if (!read.ok) return again(read.problems);
      const session = signedIn(request);
      const by = { personId: session.personId, now: now() };
      try {
        const claim = await inFirmAs(db, session, (tx) => openClaim(tx, read.value, by));
        return reply.redirect(`${PATH}/${claim.id}`, 303);
      } catch (error) {
        return again(refusedFields(error));
      }
    },
  });
};
