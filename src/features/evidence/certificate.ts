// A self-signed certificate (RFC 5280) for a key of the firm's own. It says nothing but which key
// is meant: whoever relies on it compares its fingerprint with one that came another way.
import { randomBytes, webcrypto } from "node:crypto";
import * as asn1 from "asn1js";
import * as pki from "pkijs";
import { ownBytes } from "../../verify/own-bytes.ts";
import { wholeSeconds } from "./signature.ts";

const ALGORITHM = { name: "ECDSA", namedCurve: "P-256" } as const;
const COMMON_NAME = "2.5.4.3";
const ORGANIZATION = "2.5.4.10";
const KEY_USAGE = "2.5.29.15";
/** digitalSignature and contentCommitment, the first two bits (RFC 5280, 4.2.1.3). */
const SIGNS_CONTENT = 0xc0;
/** RFC 5280, 4.1.2.5: no well-defined expiration date. */
const NEVER = new Date("9999-12-31T23:59:59Z");

export interface KeyWithCertificate {
  /** PKCS #8, DER. */
  privateKey: Buffer;
  /** DER. */
  certificate: Buffer;
}

export async function makeKey(firm: { id: string; name: string }, at: Date) {
  const { subtle } = webcrypto;
  const pair = await subtle.generateKey(ALGORITHM, true, ["sign", "verify"]);
  const certificate = new pki.Certificate({ version: 2 });
  certificate.serialNumber = new asn1.Integer({ valueHex: ownBytes(serialNumber()) });
  for (const name of [certificate.subject, certificate.issuer]) {
    name.typesAndValues = [
      named(ORGANIZATION, firm.name.slice(0, 64)),
      named(COMMON_NAME, `evidence ${firm.id}`),
    ];
  }
  certificate.notBefore.value = wholeSeconds(at);
  certificate.notAfter = new pki.Time({ type: pki.TimeType.GeneralizedTime, value: NEVER });
  certificate.extensions = [keyUsage()];
  await certificate.subjectPublicKeyInfo.importKey(pair.publicKey as never);
  await certificate.sign(pair.privateKey as never, "SHA-256");
  return {
    privateKey: Buffer.from(await subtle.exportKey("pkcs8", pair.privateKey)),
    certificate: Buffer.from(certificate.toSchema(true).toBER(false)),
  } satisfies KeyWithCertificate;
}

/** @param pkcs8 private key, DER */
export const importKey = (pkcs8: Uint8Array): Promise<webcrypto.CryptoKey> =>
  webcrypto.subtle.importKey("pkcs8", ownBytes(pkcs8), ALGORITHM, false, ["sign"]);

const named = (type: string, value: string) =>
  new pki.AttributeTypeAndValue({ type, value: new asn1.Utf8String({ value }) });

/** Positive and of full length: DER writes a leading bit as a sign (RFC 5280, 4.1.2.2). */
function serialNumber(): Buffer {
  const bytes = randomBytes(16);
  bytes[0] = 0x40 | ((bytes[0] ?? 0) & 0x3f);
  return bytes;
}

function keyUsage(): pki.Extension {
  const bits = new asn1.BitString({
    valueHex: ownBytes(Uint8Array.of(SIGNS_CONTENT)),
    unusedBits: 6,
  });
  const extnValue = bits.toBER(false);
  return new pki.Extension({ extnID: KEY_USAGE, critical: true, extnValue });
}

/** DER as PEM (RFC 7468). */
export function toPem(der: Uint8Array): string {
  const lines =
    Buffer.from(der)
      .toString("base64")
      .match(/.{1,64}/g) ?? [];
  return `-----BEGIN CERTIFICATE-----\n${lines.join("\n")}\n-----END CERTIFICATE-----\n`;
}
