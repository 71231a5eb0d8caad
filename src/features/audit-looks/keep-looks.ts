// Who relied on the record, and when, belongs to it: whatever an auditor reads leaves a look, once
// a day. Nothing is shown that could not be kept.
import type { FastifyRequest } from "fastify";
import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import type { App, Context } from "../../web/feature.ts";
import { signedIn } from "../../web/session.ts";
import { appendToLedger, lockLedger, viewIsKept } from "../ledger/store.ts";
import { addAuditLook, jobOf, type Look } from "./store.ts";
import { NEEDS_NONE, ON_THE_LEDGER } from "./what.ts";

const SHOWN: ReadonlySet<number> = new Set([200, 206]);
const PATH_MOST = 500;
const GUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;

export function keepLooksByAuditors(app: App, { db, now }: Pick<Context, "db" | "now">): void {
  refuseUnknownNames(app);
  app.addHook("onSend", async (request, reply, payload) => {
    const operation = request.routeOptions.schema?.operationId ?? "";
    if (SHOWN.has(reply.statusCode) && leavesLook(request, operation)) {
      const look = lookOf(request, operation, now());
      await inFirm(db, signedIn(request).firmId, (tx) => keepLook(tx, look));
    }
    return payload;
  });
}

/** Nobody is signed in where the reply only leads to the sign-in page. */
const leavesLook = (request: FastifyRequest, operation: string): boolean =>
  request.method === "GET" &&
  request.routeOptions.config.needsSignIn === true &&
  NEEDS_NONE[operation] === undefined &&
  request.session?.roles.includes("auditor") === true;

function lookOf(request: FastifyRequest, operation: string, at: Date): Look {
  const { id } = (request.params ?? {}) as { id?: string };
  return {
    ...{ personId: signedIn(request).personId, operation, at },
    day: at.toISOString().slice(0, 10),
    // Which list it was; what was sought in it is the auditor's own.
    path: (request.url.split("?")[0] ?? "").slice(0, PATH_MOST),
    subjectId: id !== undefined && GUID.test(id) ? id : null,
  };
}

async function keepLook(tx: FirmTransaction, look: Look): Promise<void> {
  const by = ON_THE_LEDGER[look.operation];
  const jobId = by && look.subjectId ? await jobOf(tx, by, look.subjectId) : undefined;
  if (jobId === undefined) return addAuditLook(tx, look);
  const { personId, day, at } = look;
  if (await viewIsKept(tx, jobId, personId, day)) return;
  // Under the lock once more: two pictures of one page come at the same time.
  if (!(await lockLedger(tx, jobId)) || (await viewIsKept(tx, jobId, personId, day))) return;
  await appendToLedger(tx, jobId, { kind: "record.viewed", body: { personId }, at });
}

/** A name that no route has would leave what was renamed to the other table, unseen. */
function refuseUnknownNames(app: App): void {
  const seen = new Set<string>();
  app.addHook("onRoute", ({ method, schema }) => {
    if ([method].flat().includes("GET")) seen.add(schema?.operationId ?? "");
  });
  app.addHook("onReady", async () => {
    const named = [...Object.keys(ON_THE_LEDGER), ...Object.keys(NEEDS_NONE)];
    const unknown = named.filter((name) => !seen.has(name));
    if (unknown.length > 0) throw new Error(`audit-looks names no route: ${unknown.join(", ")}`);
  });
}
