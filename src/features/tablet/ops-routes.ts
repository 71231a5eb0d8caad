import type { FastifyRequest } from "fastify";
import { Problem } from "../../errors.ts";
import type { Context, Feature } from "../../web/feature.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { type IncomingOp, readIncoming } from "./ops-incoming.ts";
import { receiveOps } from "./receive-ops.ts";
import { OpBatch, OpResults, type TabletOp } from "./schemas.ts";
import type { Receiver } from "./take-op.ts";

/** Bodies before their schema read them. */
const bodiesAsSent = new WeakMap<FastifyRequest, unknown>();

export const tabletOpRoutes: Feature = async (app, context) => {
  app.post("/api/v1/tablet/ops", {
    config: { textsByPart: true },
    preValidation: async (request) => {
      bodiesAsSent.set(request, request.body);
    },
    schema: {
      operationId: "sendTabletOps",
      summary: "Send what a tablet kept, in the order in which it was kept",
      description:
        "Each operation is stored once, with its effect or held with the reason; sending it " +
        "again brings the same reply. Of each device they are taken in order: one that comes " +
        "before its turn is early and is sent again later. Where a batch is refused for the " +
        "service being busy, those before the refusal may be stored already.",
      tags: ["Tablet"],
      body: OpBatch,
      response: { 200: OpResults, ...problems(400, 401, 403, 413, 422, 503) },
    },
    handler: async (request) => {
      const receiver = receiverOf(context, request);
      const { firmId = receiver.firmId, ops } = request.body;
      if (firmId !== receiver.firmId) throw ofAnotherFirm();
      return receiveOps(receiver, readAll(request, ops));
    },
  });
};

export function receiverOf({ db, now }: Context, request: FastifyRequest): Receiver {
  const { firmId, personId } = signedIn(request);
  const onFault = (error: unknown, opId: string): void =>
    request.log.error({ err: error, opId }, "operation held because of a fault");
  return { db, firmId, personId, now, onFault };
}

const ofAnotherFirm = (): Problem =>
  new Problem(
    "not-signed-in",
    "These facts are another firm's. Sign in as someone of that firm to send them.",
  );

function readAll(request: FastifyRequest, ops: readonly TabletOp[]): IncomingOp[] {
  const { ops: asSent } = bodiesAsSent.get(request) as { ops: unknown[] };
  return ops.map((op, index) => readIncoming(op, asSent[index]));
}
