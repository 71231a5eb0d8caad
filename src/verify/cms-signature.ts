// A detached CMS signature (RFC 5652) held against what it signs.
import * as pki from "pkijs";
import { sha256Hex } from "../domain/evidence/sha256.ts";
import { ownBytes } from "./own-bytes.ts";

export type SignatureCheck =
  | { ok: true; sha256: string }
  | { ok: false; code: "signature-unread" | "signature-unfit"; why: string };

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
      return { ok: false, code: "signature-unread", why: "it holds not one signature and its key" };
    }
    const good = await signedData.verify({ signer: 0, data: ownBytes(content) });
    if (!good) return { ok: false, code: "signature-unfit", why: "" };
    const der = new Uint8Array(certificate.toSchema(true).toBER(false));
    return { ok: true, sha256: await sha256Hex(der) };
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return { ok: false, code: "signature-unread", why };
  }
}
