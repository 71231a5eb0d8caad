// Deliveries go out at least once: one is claimed before it is sent and marked after it was taken,
// and a process that dies in between leaves it to be sent again under the same id.
import type { Config } from "../config.ts";
import type { Database } from "../db/client.ts";
import { inFirm } from "../db/scope.ts";
import { mailHost } from "../features/mail/post.ts";
import { queueMail } from "../features/mail/store.ts";
import { ownersOf } from "../features/people/store.ts";
import {
  claimDelivery,
  type DeliveryRow,
  markDelivered,
  markMissed,
} from "../features/webhooks/delivery-store.ts";
import { secretsOf } from "../features/webhooks/endpoint-secrets.ts";
import { type Posted, postEvent } from "../features/webhooks/post-event.ts";
import { signatureHeaders } from "../features/webhooks/signature.ts";
import { disableFailing, type EndpointRow, findEndpoint } from "../features/webhooks/store.ts";
import { isLanguage } from "../language/languages.ts";
import { say } from "../language/say.ts";
import { eachFirm, type OnFailure, stopAtOnce } from "./each-firm.ts";

/** Waits after each attempt but the last: Standard Webhooks 1.0, "Retry schedule", about 2 days. */
const RETRY_S = [5, 300, 1800, 7200, 18_000, 36_000, 50_400, 72_000] as const;
const LEASE_MS = 60_000;
const DELIVERIES_A_RUN = 200;
const DISABLED_AFTER_MS = 5 * 24 * 3_600_000;

export interface WebhookFigures {
  delivered: number;
  missed: number;
  disabled: number;
}

export async function sendWebhooks(
  db: Database,
  config: Config,
  now: () => Date,
  onFailure: OnFailure = stopAtOnce,
): Promise<WebhookFigures> {
  const figures: WebhookFigures = { delivered: 0, missed: 0, disabled: 0 };
  await eachFirm(db, onFailure, async ({ id }) => {
    for (let count = 0; count < DELIVERIES_A_RUN; count += 1) {
      if (!(await sendNext(db, config, id, now, figures))) break;
    }
    figures.disabled += await disable(db, config, id, now());
  });
  return figures;
}

async function sendNext(
  db: Database,
  config: Config,
  firmId: string,
  now: () => Date,
  figures: WebhookFigures,
): Promise<boolean> {
  const claimed = await inFirm(db, firmId, async (tx) => {
    const row = await claimDelivery(tx, now(), new Date(now().getTime() + LEASE_MS));
    const endpoint = row && (await findEndpoint(tx, row.endpointId));
    return row && endpoint ? { row, endpoint } : undefined;
  });
  if (!claimed) return false;
  const posted = await attempt(config, claimed.row, claimed.endpoint, now());
  await inFirm(db, firmId, async (tx) => {
    if (posted.ok) return markDelivered(tx, claimed.row, posted.status, now());
    return markMissed(tx, claimed.row, missedAs(claimed.row, posted, now()), now());
  });
  figures[posted.ok ? "delivered" : "missed"] += 1;
  return true;
}

async function attempt(
  config: Config,
  { eventId: id, body }: DeliveryRow,
  endpoint: EndpointRow,
  now: Date,
): Promise<Posted> {
  const secrets = secretsOf(config.dataFolder, endpoint, now);
  if (secrets.length === 0) {
    return { ok: false, error: "the secret cannot be opened with this data folder: replace it" };
  }
  const timestamp = Math.floor(now.getTime() / 1000);
  const headers = signatureHeaders({ id, timestamp, body }, secrets);
  const allowInternal = config.WEBHOOKS_INTERNAL;
  return postEvent({ url: endpoint.url, body, headers, allowInternal });
}

/** 410 Gone says that nobody wants it any more (Standard Webhooks 1.0). */
function missedAs({ attempts }: DeliveryRow, posted: Posted & { ok: false }, now: Date) {
  const waitS = posted.status === 410 ? undefined : RETRY_S[attempts - 1];
  const nextAt = waitS === undefined ? null : new Date(now.getTime() + waitS * 1000);
  return { status: posted.status ?? null, error: posted.error, nextAt };
}

async function disable(db: Database, config: Config, firmId: string, now: Date): Promise<number> {
  return inFirm(db, firmId, async (tx) => {
    const disabled = await disableFailing(tx, new Date(now.getTime() - DISABLED_AFTER_MS));
    if (disabled.length === 0) return 0;
    for (const owner of await ownersOf(tx)) {
      const language = isLanguage(owner.language) ? owner.language : "en";
      const urls = disabled.map(({ url }) => url).join(", ");
      const textBody = `${say(language, "webhook.disabledText", { urls })}\n`;
      const subject = say(language, "webhook.disabledSubject");
      const host = mailHost(config);
      const htmlBody = paragraph(textBody);
      await queueMail(tx, { recipient: owner.email, subject, textBody, htmlBody, host }, now);
    }
    return disabled.length;
  });
}

const paragraph = (text: string): string =>
  `<p>${text.trim().replaceAll("&", "&amp;").replaceAll("<", "&lt;")}</p>`;
