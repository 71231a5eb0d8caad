// The seals of a bag: the signature over its manifest and, where a service is set up, the time
// stamp over the signature. Each is kept, so that the same bag leaves with the same seals.
import type { Database } from "../../db/client.ts";
import { inFirm } from "../../db/scope.ts";
import { askForStamp, type TimeStampService } from "./ask-for-stamp.ts";
import type { KeptSignature } from "./key-store.ts";
import { type KeyPlace, type Signing, signManifest } from "./signing-key.ts";
import { findTimeStamp, keepTimeStamp, type TimeStampRow } from "./time-stamp-store.ts";

export interface Seals {
  signature: Buffer;
  timeStamp?: Buffer;
  stampedAt?: Date;
  /** Why there is no time stamp although there is a service. */
  problem?: string;
}

/** A service that does not answer keeps nobody from the evidence. */
export async function sealManifest(
  place: KeyPlace,
  service: TimeStampService | undefined,
  signing: Signing,
): Promise<Seals> {
  const kept = await signManifest(place, signing);
  const signature = Buffer.from(kept.signature);
  if (!service) return { signature };
  const stamped = await stampSignature(place.db, signing.firmId, service, kept);
  if (!stamped.ok) return { signature, problem: stamped.problem };
  const { response, stampedAt } = stamped.row;
  return { signature, timeStamp: Buffer.from(response), stampedAt };
}

/** The stamp that the signature has, or a new one, or why the service gives none. */
export async function stampSignature(
  db: Database,
  firmId: string,
  service: TimeStampService,
  { id: signatureId, signature }: KeptSignature,
): Promise<{ ok: true; row: TimeStampRow } | { ok: false; problem: string }> {
  const known = await inFirm(db, firmId, (tx) => findTimeStamp(tx, signatureId));
  if (known) return { ok: true, row: known };
  const asked = await askForStamp(service, Buffer.from(signature));
  if (!asked.ok) return asked;
  const { response, at: stampedAt } = asked;
  const given = { signatureId, service: service.name, response, stampedAt };
  return { ok: true, row: await inFirm(db, firmId, (tx) => keepTimeStamp(tx, given)) };
}
