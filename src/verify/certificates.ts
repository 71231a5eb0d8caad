import * as pki from "pkijs";
import { sha256Hex } from "../domain/evidence/sha256.ts";
import { ownBytes } from "./own-bytes.ts";

const BLOCKS = /-----BEGIN CERTIFICATE-----([^-]+)-----END CERTIFICATE-----/g;
const COMMON_NAME = "2.5.4.3";

/** Every certificate of a PEM text (RFC 7468), DER; what is not base64 is none. */
export function fromPem(text: string): Uint8Array[] {
  return Array.from(text.matchAll(BLOCKS), ([, base64 = ""]) => decoded(base64)).filter(
    (der) => der !== undefined,
  );
}

function decoded(base64: string): Uint8Array | undefined {
  try {
    const binary = atob(base64.replace(/\s/g, ""));
    return Uint8Array.from(binary, (letter) => letter.charCodeAt(0));
  } catch {
    return undefined;
  }
}

/** SHA-256 of each certificate's DER, 64 lower-case hex digits. */
export const fingerprintsOf = (pem: string): Promise<string[]> =>
  Promise.all(fromPem(pem).map((der) => sha256Hex(der)));

export const readCertificates = (pem: string): pki.Certificate[] =>
  fromPem(pem).map((der) => pki.Certificate.fromBER(ownBytes(der)));

/** Its common name, or the last part of its name where it has none. */
export function subjectName({ subject }: pki.Certificate): string {
  const parts = subject.typesAndValues;
  const named = parts.find(({ type }) => type === COMMON_NAME) ?? parts.at(-1);
  return String(named?.value.valueBlock.value ?? "");
}
