// A detached CMS signature (RFC 5652) held against what it signs.
import * as pki from "pkijs";
import { sha256Hex } from "../domain/evidence/sha256.ts";
import { ownBytes } from "./own-bytes.ts";

export type SignatureCheck = { ok: true; sha256: string } | { ok: false; problem: string };

/**
 * Checks a signature against the certificate inside it; whose that is, the caller has to say.
 * `sha256` is the certificate's fingerprint.
 */
export async function checkDetached(
  signature: Uint8Array,
  content: Uint8Array,
): Promise<SignatureCheck> {
  try {
    const info = pki.ContentInfo.fromBER(ownBytes(signature));
    const signedData = new pki.SignedData({ schema: info.content });
    const [certificate] = signedData.certificates ?? [];
    if (signedData.signerInfos.length !== 1 || !(certificate instanceof pki.Certificate)) {
      return { ok: false, problem: "It does not hold one signature with its certificate." };
    }
    const good = await signedData.verify({ signer: 0, data: ownBytes(content) });
    if (!good) return { ok: false, problem: "The signature does not fit what it signs." };
    const der = new Uint8Array(certificate.toSchema(true).toBER(false));
    return { ok: true, sha256: await sha256Hex(der) };
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return { ok: false, problem: `It is no signature that can be read: ${why}` };
  }
}
