// A detached CMS signature (RFC 5652): ECDSA on P-256 with SHA-256, DER, the signing certificate
// inside, so that openssl checks it with nothing of ours.
import { createHash, type webcrypto } from "node:crypto";
import * as asn1 from "asn1js";
import * as pki from "pkijs";
import { ownBytes } from "../../verify/own-bytes.ts";

const DIGEST = "SHA-256";
const CONTENT_TYPE = "1.2.840.113549.1.9.3";
const SIGNING_TIME = "1.2.840.113549.1.9.5";
const MESSAGE_DIGEST = "1.2.840.113549.1.9.4";

export interface Signer {
  key: webcrypto.CryptoKey;
  /** DER. */
  certificate: Uint8Array;
}

/** @returns the signature, DER of a ContentInfo without the content */
export async function signDetached(content: Uint8Array, signer: Signer, at: Date): Promise<Buffer> {
  const certificate = pki.Certificate.fromBER(ownBytes(signer.certificate));
  const { issuer, serialNumber } = certificate;
  const signedData = new pki.SignedData({
    version: 1,
    encapContentInfo: new pki.EncapsulatedContentInfo({ eContentType: pki.ContentInfo.DATA }),
    certificates: [certificate],
    signerInfos: [
      new pki.SignerInfo({
        version: 1,
        sid: new pki.IssuerAndSerialNumber({ issuer, serialNumber }),
        signedAttrs: signedAttributes(content, at),
      }),
    ],
  });
  await signedData.sign(signer.key as never, 0, DIGEST, ownBytes(content));
  const info = new pki.ContentInfo({
    contentType: pki.ContentInfo.SIGNED_DATA,
    content: signedData.toSchema(true),
  });
  return Buffer.from(info.toSchema().toBER(false));
}

function signedAttributes(content: Uint8Array, at: Date): pki.SignedAndUnsignedAttributes {
  const digest = createHash("sha256").update(content).digest();
  const attribute = (type: string, value: unknown) => new pki.Attribute({ type, values: [value] });
  return new pki.SignedAndUnsignedAttributes({
    type: 0,
    attributes: [
      attribute(CONTENT_TYPE, new asn1.ObjectIdentifier({ value: pki.ContentInfo.DATA })),
      attribute(SIGNING_TIME, new asn1.UTCTime({ valueDate: wholeSeconds(at) })),
      attribute(MESSAGE_DIGEST, new asn1.OctetString({ valueHex: ownBytes(digest) })),
    ],
  });
}

/** SHA-256 of a certificate's DER, 64 lower-case hex digits. */
export const fingerprint = (der: Uint8Array): string =>
  createHash("sha256").update(der).digest("hex");

export const wholeSeconds = (at: Date): Date => new Date(Math.floor(at.getTime() / 1000) * 1000);
