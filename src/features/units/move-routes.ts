import type { FastifyRequest } from "fastify";
import type { FirmTransaction } from "../../db/scope.ts";
import { Problem } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { type Created, create } from "../../web/idempotency.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { installUnit } from "./install-unit.ts";
import { momentGiven, requireUnit } from "./move.ts";
import { removeUnit } from "./remove-unit.ts";
import { NewInstallation, NewRemoval, NewSwap, SwappedUnits, Unit } from "./schemas.ts";
import { shown } from "./shown.ts";
import { swapUnit } from "./swap-unit.ts";

const TAGS = ["Units"];

export const moveRoutes: Feature = async (app, { db, now }) => {
  app.post("/api/v1/units/:id/installation", {
    schema: {
      operationId: "installUnit",
      summary: "Put a unit into use at a site",
      tags: TAGS,
      params: IdParams,
      body: NewInstallation,
      response: { 201: Unit, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const move = { ...request.body, ...mover(request, request.body.at, now()) };
        const { moved } = await installUnit(tx, move);
        const made = await shownUnit(tx, move.unitId);
        if (!moved) throw nothingToDo(made.body, "is installed at this site already");
        return made;
      }),
  });

  app.post("/api/v1/units/:id/removal", {
    schema: {
      operationId: "removeUnit",
      summary: "Take a unit out of use",
      tags: TAGS,
      params: IdParams,
      body: NewRemoval,
      response: { 201: Unit, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const move = { ...request.body, ...mover(request, request.body.at, now()) };
        const { moved } = await removeUnit(tx, move);
        const made = await shownUnit(tx, move.unitId);
        if (!moved) throw nothingToDo(made.body, "is not installed anywhere");
        return made;
      }),
  });

  app.post("/api/v1/units/:id/swap", {
    schema: {
      operationId: "swapUnit",
      summary: "Swap a unit for another in the same place",
      description:
        "The old unit is swapped out, the new one installed at the same site and place of its " +
        "bank. With a jobId, the new unit takes the old one's place on the job.",
      tags: TAGS,
      params: IdParams,
      body: NewSwap,
      response: { 201: SwappedUnits, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const move = { ...request.body, ...mover(request, request.body.at, now()) };
        const { oldUnitId, newUnitId } = await swapUnit(tx, move);
        const old = await shownUnit(tx, oldUnitId);
        const fresh = await shownUnit(tx, newUnitId);
        return { location: fresh.location, body: { old: old.body, new: fresh.body } };
      }),
  });
};

function mover(request: FastifyRequest, at: string | undefined, now: Date) {
  const { id: unitId } = request.params as { id: string };
  return { unitId, personId: signedIn(request).personId, at: momentGiven(at, now), now };
}

async function shownUnit(tx: FirmTransaction, id: string) {
  const unit = await requireUnit(tx, id);
  const made = { location: `/api/v1/units/${id}`, version: unit.version, body: shown(unit) };
  return made satisfies Created<unknown>;
}

const nothingToDo = (unit: { serial: string; state: string }, what: string): Problem =>
  new Problem("conflict", `${unit.serial} ${what}. Read the unit's history.`, {
    state: unit.state,
  });
