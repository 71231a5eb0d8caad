// One claim: its steps, what goes with it, and the swap that answered it.
import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm, inFirmAs } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import {
  type FieldProblems,
  type FormBody,
  readForm,
  refusedFields,
  SINGLE_FIELDS,
} from "../../web/form.ts";
import { plansWork } from "../../web/office.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { orRefusal } from "../changes/or-refusal.ts";
import { exportsOf } from "../evidence-exports/background.ts";
import { beginExport } from "../evidence-exports/begin-export.ts";
import { readFirm } from "../firms/store.ts";
import { findJob } from "../jobs/store.ts";
import { findUnit } from "../units/store.ts";
import { attachEvidence, detachEvidence, evidenceOf } from "./claim-evidence.ts";
import { documentChoices } from "./claim-evidence-store.ts";
import { ClaimMove } from "./claim-schemas.ts";
import { swapsOf } from "./claim-store.ts";
import { claimView } from "./claim-view.ts";
import { readClaim, stepClaim } from "./keep-claim.ts";

const PATH = "/warranty/claims/:id";
const DOCUMENTS_MOST = 200;
const Step = ClaimMove.extend({ version: z.coerce.number().int() });
const Document = z.object({ documentId: z.guid() });
const Removal = z.object({ evidenceId: z.guid() });

interface Shown {
  id: string;
  typed?: FormBody;
  problems?: FieldProblems;
}

export const oneClaimPages: Feature = async (app, context) => {
  const { db, now } = context;
  const background = exportsOf(app, context);

  const show = async (request: FastifyRequest, reply: FastifyReply, shown: Shown) => {
    const { language } = request;
    const { id, typed, problems } = shown;
    const page = await inFirm(db, signedIn(request).firmId, async (tx) => {
      const row = await readClaim(tx, id);
      const unit = await findUnit(tx, row.unitId);
      if (!unit) throw notFound("unit");
      const { timeZone } = await readFirm(tx);
      const swaps = await swapsOf(tx, row.unitId);
      return {
        unit,
        claim: claimView(row, swaps, { language, timeZone }),
        job: row.jobId ? await findJob(tx, row.jobId) : undefined,
        evidence: await evidenceOf(tx, id),
        documents: await documentChoices(tx, row.unitId, DOCUMENTS_MOST),
      };
    });
    return sendPage(request, reply, "warranty-claim", {
      title: say(language, "claim.one", { reference: page.claim.reference }),
      ...{ ...page, problems, mayStep: plansWork(request), styles: ["registry"] },
      evidence: page.evidence.map((row) => ({
        ...{ ...row, isBag: row.kind === "bag", isReady: row.state === "ready" },
        stateName: say(language, `evidence.state.${row.state as "ready"}`),
      })),
      documents: page.documents.map(({ id: value, name, reference }) => ({
        ...{ value, text: `${reference}: ${name}` },
      })),
      typed: typed ?? { makerReference: page.claim.makerReference, note: page.claim.note },
    });
  };

  app.get(PATH, {
    schema: { operationId: "warrantyClaimPage", hide: true, params: IdParams },
    handler: async (request, reply) => show(request, reply, { id: request.params.id }),
  });

  app.post(`${PATH}/step`, {
    schema: {
      operationId: "stepWarrantyClaimForm",
      ...{ hide: true, params: IdParams, body: SINGLE_FIELDS },
    },
    handler: async (request, reply) => {
      const typed = request.body;
      const { id } = request.params;
      const again = (problems: FieldProblems) =>
        show(request, reply.code(422), { id, typed, problems });
      const read = readForm(Step, typed);
      if (!read.ok) return again(read.problems);
      const { version, replacementUnitId, ...move } = read.value;
      const session = signedIn(request);
      const by = { personId: session.personId, now: now() };
      // The form offers the swap beside every step; it belongs to the last one.
      const whole =
        move.state === "settled" && replacementUnitId ? { ...move, replacementUnitId } : move;
      try {
        await inFirmAs(db, session, (tx) => stepClaim(tx, id, version, whole, by));
        return reply.redirect(`/warranty/claims/${id}`, 303);
      } catch (error) {
        return again(refusedFields(error));
      }
    },
  });

  app.post(`${PATH}/bag`, {
    schema: { operationId: "attachClaimBagForm", hide: true, params: IdParams },
    handler: async (request, reply) => {
      const { id } = request.params;
      const session = signedIn(request);
      const by = { personId: session.personId, now: now() };
      return orRefusal(request, reply, `/warranty/claims/${id}`, async () => {
        const exportId = await inFirmAs(db, session, async (tx) => {
          const { unitId } = await readClaim(tx, id);
          const scope = { kind: "unit", unitId } as const;
          const row = await beginExport(tx, scope, by.personId, by.now);
          await attachEvidence(tx, id, { exportId: row.id }, by);
          return row.id;
        });
        background.start(session.firmId, exportId);
        return `/warranty/claims/${id}`;
      });
    },
  });

  app.post(`${PATH}/document`, {
    schema: {
      operationId: "attachClaimDocumentForm",
      ...{ hide: true, params: IdParams, body: Document },
    },
    handler: async (request, reply) => {
      const { id } = request.params;
      const session = signedIn(request);
      const by = { personId: session.personId, now: now() };
      return orRefusal(request, reply, `/warranty/claims/${id}`, async () => {
        await inFirmAs(db, session, (tx) => attachEvidence(tx, id, request.body, by));
        return `/warranty/claims/${id}`;
      });
    },
  });

  app.post(`${PATH}/removal`, {
    schema: {
      operationId: "detachClaimEvidenceForm",
      ...{ hide: true, params: IdParams, body: Removal },
    },
    handler: async (request, reply) => {
      const { id } = request.params;
      const session = signedIn(request);
      const by = { personId: session.personId, now: now() };
      return orRefusal(request, reply, `/warranty/claims/${id}`, async () => {
        await inFirmAs(db, session, (tx) => detachEvidence(tx, id, request.body.evidenceId, by));
        return `/warranty/claims/${id}`;
      });
    },
  });
};
