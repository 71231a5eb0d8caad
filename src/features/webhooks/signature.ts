// Standard Webhooks 1.0: HMAC-SHA256 over "id.timestamp.body" with the bytes behind the "whsec_" of
// the secret, base64, after "v1,"; while a secret is being replaced both sign, a space between.
import { createHmac, randomBytes } from "node:crypto";

const SECRET_BYTES = 32;
const PREFIX = "whsec_";

export const newWebhookSecret = (): string =>
  `${PREFIX}${randomBytes(SECRET_BYTES).toString("base64")}`;

export interface Signed {
  id: string;
  /** Seconds since 1970. */
  timestamp: number;
  body: string;
}

export function signatureHeaders(
  { id, timestamp, body }: Signed,
  secrets: readonly string[],
): Record<string, string> {
  const signatures = secrets.map((secret) => {
    const key = Buffer.from(secret.slice(PREFIX.length), "base64");
    const hmac = createHmac("sha256", key).update(`${id}.${timestamp}.${body}`).digest("base64");
    return `v1,${hmac}`;
  });
  return {
    "content-type": "application/json",
    "user-agent": "Holdpoint",
    "webhook-id": id,
    "webhook-timestamp": String(timestamp),
    "webhook-signature": signatures.join(" "),
  };
}
