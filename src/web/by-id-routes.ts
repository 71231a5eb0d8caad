// The routes of one row by its id: read with its ETag, edited under If-Match, taken away.
import type { z } from "zod";
import type { Database } from "../db/client.ts";
import { type FirmTransaction, inFirm } from "../db/scope.ts";
import { matchedVersion, sendETag } from "./etag.ts";
import type { App } from "./feature.ts";
import { IdParams } from "./fields.ts";
import { noBody, problems } from "./responses.ts";
import { signedIn } from "./session.ts";

interface Operation {
  operationId: string;
  summary: string;
}

export interface ByIdRoutes<Row extends { version: number }, Edit, Shown> {
  /** Of the collection. */
  path: string;
  tags: readonly string[];
  body: z.ZodType<Edit>;
  shown: z.ZodType<unknown, Shown>;
  read: Operation & { row(tx: FirmTransaction, id: string): Promise<Row> };
  edit: Operation & {
    /** Whether an edit can meet something in its way (409). */
    canConflict: boolean;
    row(tx: FirmTransaction, id: string, version: number, change: Edit): Promise<Row>;
  };
  show(tx: FirmTransaction, row: Row): Promise<Shown> | Shown;
}

export function readAndEditRoutes<Row extends { version: number }, Edit, Shown>(
  app: App,
  db: Database,
  { path, tags, body, read, edit, show, ...of }: ByIdRoutes<Row, Edit, Shown>,
): void {
  // Fastify works out a reply's type from the schema itself, which a type parameter has not got.
  const shown = of.shown as z.ZodType;
  app.get(`${path}/:id`, {
    schema: {
      ...{ operationId: read.operationId, summary: read.summary, tags, params: IdParams },
      response: { 200: shown, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const { id } = request.params;
      return inFirm(db, signedIn(request).firmId, async (tx) => {
        const row = await read.row(tx, id);
        sendETag(reply, row.version);
        return show(tx, row);
      });
    },
  });

  const refusals = edit.canConflict
    ? problems(401, 403, 404, 409, 412, 422, 428)
    : problems(401, 403, 404, 412, 422, 428);
  app.patch(`${path}/:id`, {
    schema: {
      ...{ operationId: edit.operationId, summary: edit.summary, tags, params: IdParams, body },
      response: { 200: shown, ...refusals },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const { id } = request.params;
      const change = request.body as Edit;
      return inFirm(db, signedIn(request).firmId, async (tx) => {
        const row = await edit.row(tx, id, version, change);
        sendETag(reply, row.version);
        return show(tx, row);
      });
    },
  });
}

export interface RemovalRoute extends Operation {
  path: string;
  tags: readonly string[];
  description?: string;
  canConflict?: boolean;
  /** Throws where it is not there, or may not go. */
  remove(tx: FirmTransaction, id: string): Promise<unknown>;
}

export function removalRoute(app: App, db: Database, of: RemovalRoute): void {
  const { operationId, summary, description, tags, canConflict = false } = of;
  const refusals = canConflict ? problems(401, 403, 404, 409, 422) : problems(401, 403, 404, 422);
  app.delete(`${of.path}/:id`, {
    schema: {
      ...{ operationId, summary, tags, params: IdParams },
      ...(description ? { description } : {}),
      response: { 204: noBody(), ...refusals },
    },
    handler: async (request, reply) => {
      await inFirm(db, signedIn(request).firmId, (tx) => of.remove(tx, request.params.id));
      return reply.code(204).send();
    },
  });
}
