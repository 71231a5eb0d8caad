// Requirement: a token names the certificate that signed it, so that another certificate of the
// same key cannot be put in its place. Source: RFC 2634, 5.4 (SHA-1), and RFC 5035, 3 (any digest),
// from memory.
import * as asn1 from "asn1js";
import type * as pki from "pkijs";
import { getAlgorithmByOID } from "pkijs";
import { ownBytes } from "./own-bytes.ts";

const SIGNING_CERTIFICATE = "1.2.840.113549.1.9.16.2.12";
const SIGNING_CERTIFICATE_V2 = "1.2.840.113549.1.9.16.2.47";

/** Whether the first certificate that the attributes name is this one. */
export async function namesCertificate(
  attributes: readonly pki.Attribute[],
  der: Uint8Array,
): Promise<boolean> {
  const named = (oid: string) => attributes.find(({ type }) => type === oid)?.values[0];
  const second = firstOf(firstOf(named(SIGNING_CERTIFICATE_V2)));
  const first = firstOf(firstOf(named(SIGNING_CERTIFICATE)));
  const ids = second ?? first;
  if (!(ids instanceof asn1.Sequence)) return false;
  const [head] = ids.valueBlock.value;
  const digest = second && head instanceof asn1.Sequence ? digestOf(head) : undefined;
  const hash = digest ? ids.valueBlock.value[1] : head;
  if (!(hash instanceof asn1.OctetString)) return false;
  const name = digest ?? (second ? "SHA-256" : "SHA-1");
  const found = new Uint8Array(await crypto.subtle.digest(name, ownBytes(der)));
  const stated = hash.valueBlock.valueHexView;
  return found.length === stated.length && found.every((byte, place) => byte === stated[place]);
}

const firstOf = (value: unknown): unknown =>
  value instanceof asn1.Sequence ? value.valueBlock.value[0] : undefined;

function digestOf(algorithm: asn1.Sequence): string {
  const [oid] = algorithm.valueBlock.value;
  const known = getAlgorithmByOID(oid instanceof asn1.ObjectIdentifier ? oid.getValue() : "");
  return "name" in known ? String(known.name) : "";
}
