import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { Problem } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { create } from "../../web/idempotency.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { certificatesPath } from "./export-bag.ts";
import { type KeyRow, listKeys } from "./key-store.ts";
import { EvidenceKey, EvidenceKeyList, FirmParams } from "./schemas.ts";
import { rotateKey } from "./signing-key.ts";

const TAGS = ["Evidence"];
/** RFC 8555, 9.1. */
const PEM = "application/pem-certificate-chain";

export const evidenceKeyRoutes: Feature = async (app, { db, config, now }) => {
  const place = { db, now, dataFolder: config.dataFolder };

  app.get("/.well-known/holdpoint/:firmId/certificates.pem", {
    schema: {
      operationId: "readCertificates",
      summary: "Get the certificates of all keys that a firm's evidence was ever signed with",
      tags: TAGS,
      params: FirmParams,
      response: {
        200: {
          description:
            "PEM, the newest first, each after its SHA-256 fingerprint and the days of its use",
          content: { [PEM]: { schema: z.string() } },
        },
        ...problems(404, 422),
      },
    },
    handler: async (request, reply) => {
      const keys = await inFirm(db, request.params.firmId, listKeys);
      if (keys.length === 0) {
        throw new Problem("not-found", "No evidence has been signed here for such a firm.");
      }
      const texts = keys.map((key, index) => withFingerprint(key, keys[index - 1]));
      return reply.type(PEM).send(texts.join("") as never);
    },
  });

  app.get("/api/v1/evidence-keys", {
    schema: {
      operationId: "listEvidenceKeys",
      summary: "List the keys that evidence was signed with, the newest first",
      tags: TAGS,
      response: { 200: EvidenceKeyList, ...problems(401, 403) },
    },
    handler: async (request) => {
      const keys = await inFirm(db, signedIn(request).firmId, listKeys);
      return { items: keys.map(shown), next: null };
    },
  });

  app.post("/api/v1/evidence-keys", {
    schema: {
      operationId: "replaceEvidenceKey",
      summary: "Sign with a new key from now on; the certificates of former keys stay published",
      tags: TAGS,
      response: { 201: EvidenceKey, ...problems(401, 403, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => ({
        location: certificatesPath(tx.firmId),
        body: shown(await rotateKey(tx, place)),
      })),
  });
};

const shown = ({ id, sha256, certificate, createdAt }: KeyRow) => ({
  id,
  sha256,
  certificate,
  createdAt: createdAt.toISOString(),
});

/** Text between certificates is allowed (RFC 7468, 5.2) and passed over. */
function withFingerprint({ sha256, createdAt, certificate }: KeyRow, next?: KeyRow): string {
  const dayOf = (at: Date): string => at.toISOString().slice(0, 10);
  const until = next ? `, signed nothing after ${dayOf(next.createdAt)}` : ", signs now";
  return `SHA-256 ${sha256}, since ${dayOf(createdAt)}${until}\n${certificate}`;
}
