import { uuidv7 } from "uuidv7";
import type { z } from "zod";
import type { Config } from "../../config.ts";
import type { FirmTransaction } from "../../db/scope.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import { type Again, addDeliveries, sendAgain } from "./delivery-store.ts";
import { seal } from "./endpoint-secrets.ts";
import { TRIAL_KIND } from "./raise-event.ts";
import type { EndpointEdit, NewEndpoint } from "./schemas.ts";
import { newWebhookSecret } from "./signature.ts";
import {
  addEndpoint,
  countEndpoints,
  type EndpointRow,
  editEndpoint,
  findEndpoint,
  newEndpointId,
} from "./store.ts";

type Ground = Pick<Config, "dataFolder" | "WEBHOOKS_INTERNAL">;

export const ENDPOINTS_MOST = 20;
/** Both secrets sign for so long after one was replaced. */
const OVERLAP_MS = 24 * 3_600_000;

/** What is sent tells of customers' jobs: it goes encrypted, but for tries on one's own machine. */
function requireTls(url: string | undefined, allowInternal: boolean): void {
  if (url === undefined || allowInternal || url.startsWith("https:")) return;
  throw invalid("/body/url", "must begin with https://");
}

/** An endpoint with the secret that signs what is sent there, which is told this once. */
export interface WithSecret {
  row: EndpointRow;
  secret: string;
}

export async function takeOnEndpoint(
  tx: FirmTransaction,
  wish: z.infer<typeof NewEndpoint>,
  { personId, config }: { personId: string; config: Ground },
): Promise<WithSecret> {
  requireTls(wish.url, config.WEBHOOKS_INTERNAL);
  if ((await countEndpoints(tx)) >= ENDPOINTS_MOST) throw tooMany();
  const id = newEndpointId();
  const secret = newWebhookSecret();
  const sealedSecret = seal(config.dataFolder, id, secret);
  return {
    row: await addEndpoint(tx, { id, ...wish, sealedSecret, createdById: personId }),
    secret,
  };
}

export async function changeEndpoint(
  tx: FirmTransaction,
  id: string,
  version: number,
  change: z.infer<typeof EndpointEdit>,
  config: Ground,
): Promise<EndpointRow> {
  const before = await requireEndpoint(tx, id);
  if (change.url !== before.url) requireTls(change.url, config.WEBHOOKS_INTERNAL);
  const again = change.state === "active" ? { failingSince: null } : {};
  if (!(await editEndpoint(tx, id, version, { ...change, ...again }))) throw editedMeanwhile();
  return requireEndpoint(tx, id);
}

export async function replaceSecret(
  tx: FirmTransaction,
  id: string,
  { dataFolder, now }: { dataFolder: string; now: Date },
): Promise<WithSecret> {
  const before = await requireEndpoint(tx, id);
  const secret = newWebhookSecret();
  const change = {
    sealedSecret: seal(dataFolder, id, secret),
    sealedPrevious: new Uint8Array(before.sealedSecret),
    previousUntil: new Date(now.getTime() + OVERLAP_MS),
  };
  if (!(await editEndpoint(tx, id, before.version, change))) throw editedMeanwhile();
  return { row: await requireEndpoint(tx, id), secret };
}

/** Sends the endpoint an event that tells of nothing, to see whether it arrives. */
export async function sendTrial(tx: FirmTransaction, id: string, now: Date): Promise<EndpointRow> {
  const row = await requireEndpoint(tx, id);
  if (row.state !== "active") {
    throw new Problem("conflict", "The webhook is disabled. Use it again, then send a trial.");
  }
  const data = { endpointId: id };
  const body = JSON.stringify({ type: TRIAL_KIND, timestamp: now.toISOString(), data });
  await addDeliveries(tx, [id], { eventId: uuidv7(), kind: TRIAL_KIND, body }, now);
  return row;
}

export async function replay(
  tx: FirmTransaction,
  id: string,
  wish: Again,
  now: Date,
): Promise<EndpointRow> {
  const row = await requireEndpoint(tx, id);
  if ((await sendAgain(tx, id, wish, now)) > 0) return row;
  throw new Problem("conflict", "There is nothing to send again.");
}

export async function requireEndpoint(tx: FirmTransaction, id: string): Promise<EndpointRow> {
  const row = await findEndpoint(tx, id);
  if (!row) throw notFound("webhook");
  return row;
}

const tooMany = (): Problem =>
  new Problem("conflict", `A firm has at most ${ENDPOINTS_MOST} webhooks. Change one of them.`);
