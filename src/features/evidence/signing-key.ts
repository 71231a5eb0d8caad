// The firm's key: made at its first use, replaced when the owner says so. Certificates of former
// keys stay published, because bags signed with them stay in the world.
import { uuidv7 } from "uuidv7";
import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import { fromPem } from "../../verify/certificates.ts";
import type { Context } from "../../web/feature.ts";
import { readFirm } from "../firms/store.ts";
import { importKey, makeKey, toPem } from "./certificate.ts";
import {
  addKey,
  addSignature,
  findSignature,
  type KeptSignature,
  type KeyRow,
  lockKeys,
  newestKey,
} from "./key-store.ts";
import { sealKey, unsealKey } from "./sealed-key.ts";
import { fingerprint, signDetached } from "./signature.ts";

export type KeyPlace = Pick<Context, "db" | "now"> & { dataFolder: string };

/**
 * The key that signs now, made if there is none. One that the data folder's secret no longer opens
 * is as good as lost, and a new one takes its place.
 */
export async function currentKey(
  tx: FirmTransaction,
  { dataFolder, now }: KeyPlace,
): Promise<KeyRow> {
  const opens = (key: KeyRow): boolean => openKey(dataFolder, key) !== undefined;
  const known = await newestKey(tx);
  if (known && opens(known)) return known;
  await lockKeys(tx);
  const meanwhile = await newestKey(tx);
  return meanwhile && opens(meanwhile) ? meanwhile : makeFirmKey(tx, dataFolder, now());
}

/** Replaces the firm's key. */
export async function rotateKey(tx: FirmTransaction, { dataFolder, now }: KeyPlace) {
  await lockKeys(tx);
  return makeFirmKey(tx, dataFolder, now());
}

async function makeFirmKey(tx: FirmTransaction, dataFolder: string, at: Date): Promise<KeyRow> {
  const made = await makeKey(await readFirm(tx), at);
  const id = uuidv7();
  return addKey(tx, {
    id,
    certificate: toPem(made.certificate),
    sha256: fingerprint(made.certificate),
    sealedKey: sealKey(dataFolder, id, made.privateKey),
    createdAt: at,
  });
}

const openKey = (dataFolder: string, key: KeyRow): Buffer | undefined =>
  unsealKey(dataFolder, key.id, key.sealedKey);

export interface Signing {
  firmId: string;
  /** Of a bag of one job. */
  jobId?: string;
  key: KeyRow;
  manifest: Buffer;
}

/** Signs a manifest, or hands out the signature that it got before. */
export async function signManifest(place: KeyPlace, signing: Signing): Promise<KeptSignature> {
  const { firmId, jobId, key, manifest } = signing;
  const manifestSha256 = fingerprint(manifest);
  return inFirm(place.db, firmId, async (tx) => {
    await lockKeys(tx);
    const known = await findSignature(tx, manifestSha256);
    if (known) return known;
    const privateKey = openKey(place.dataFolder, key);
    const [certificate] = fromPem(key.certificate);
    if (!privateKey || !certificate)
      throw new Error("the key that signs evidence cannot be opened");
    const at = place.now();
    const signer = { key: await importKey(privateKey), certificate };
    const signature = await signDetached(manifest, signer, at);
    const row = {
      id: uuidv7(),
      jobId: jobId ?? null,
      keyId: key.id,
      manifestSha256,
      signature,
      createdAt: at,
    };
    await addSignature(tx, row);
    return row;
  });
}
