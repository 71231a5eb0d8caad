// Requirement: a time stamp shows that a signature was there at a moment that somebody else vouches
// for. Source: RFC 3161, 2.3 (the certificate's one purpose) and 2.4.2 (response, token); RFC 5816
// and 5035 (which certificate signed); from memory.
import * as pki from "pkijs";
import { readCertificates, subjectName } from "./certificates.ts";
import { ownBytes } from "./own-bytes.ts";
import { namesCertificate } from "./signing-certificate.ts";

export interface TimeStamp {
  at: Date;
  /** Name on the certificate of whoever vouches. */
  by: string;
  policy: string;
  /** Hex; left out where none was asked for. */
  nonce?: string;
  /** Left out where no roots were given. */
  chain?: { ok: true } | { ok: false; problem: string };
}

export type TimeStampCheck = { ok: true; stamp: TimeStamp } | { ok: false; problem: string };

const CONTENT_TYPE = "1.2.840.113549.1.9.3";
const EXTENDED_KEY_USAGE = "2.5.29.37";
const TIME_STAMPING = "1.3.6.1.5.5.7.3.8";

class Unfit extends Error {}

/**
 * Holds a response of a time-stamp service against what it is to have stamped.
 * @param roots PEM; certificates to one of which the service's has to lead
 */
export async function checkTimeStamp(
  response: Uint8Array,
  stamped: Uint8Array,
  roots?: string,
): Promise<TimeStampCheck> {
  try {
    const signedData = readToken(response);
    const signer = await checkSignature(signedData, ownBytes(stamped));
    await checkPurpose(signedData, signer);
    const info = pki.TSTInfo.fromBER(signedData.encapContentInfo.eContent?.getValue() as never);
    const nonce = info.nonce && hex(info.nonce.valueBlock.valueHexView);
    const stamp: TimeStamp = {
      ...{ at: info.genTime, by: subjectName(signer), policy: info.policy },
      ...(nonce === undefined ? {} : { nonce }),
    };
    if (roots !== undefined) stamp.chain = await checkChain(signedData, signer, stamp.at, roots);
    return { ok: true, stamp };
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    const unread = "It is no time stamp that can be read: ";
    return { ok: false, problem: error instanceof Unfit ? why : `${unread}${why}` };
  }
}

function readToken(response: Uint8Array): pki.SignedData {
  const { status, timeStampToken } = pki.TimeStampResp.fromBER(ownBytes(response));
  if (status.status !== pki.PKIStatus.granted && status.status !== pki.PKIStatus.grantedWithMods) {
    const said = status.statusStrings?.map(({ valueBlock }) => valueBlock.value).join(" ") ?? "";
    throw new Unfit(`The service refused it (status ${status.status}). ${said}`.trim());
  }
  if (timeStampToken?.contentType !== pki.ContentInfo.SIGNED_DATA) {
    throw new Unfit("It holds no token.");
  }
  const signedData = new pki.SignedData({ schema: timeStampToken.content });
  const isToken = signedData.encapContentInfo.eContentType === pki.id_eContentType_TSTInfo;
  if (!isToken || signedData.signerInfos.length !== 1) throw new Unfit("It holds no token.");
  return signedData;
}

/** @returns the certificate that signed */
async function checkSignature(
  signedData: pki.SignedData,
  stamped: ArrayBuffer,
): Promise<pki.Certificate> {
  const info = pki.TSTInfo.fromBER(signedData.encapContentInfo.eContent?.getValue() as never);
  if (!(await info.verify({ data: stamped }))) throw new Unfit("It stamps something else.");
  const verifying = { signer: 0, data: stamped, extendedMode: true } as const;
  const { signatureVerified, signerCertificate } = await signedData
    .verify(verifying)
    .catch((error: { message?: string }): { signatureVerified: false; signerCertificate: null } => {
      throw new Unfit(`Its signature does not hold: ${error.message}`);
    });
  if (!signatureVerified || !signerCertificate) throw new Unfit("Its signature does not hold.");
  return signerCertificate;
}

/** That the key signs time stamps and nothing else, and that the token names its certificate. */
async function checkPurpose(signedData: pki.SignedData, signer: pki.Certificate): Promise<void> {
  const usage = signer.extensions?.find(({ extnID }) => extnID === EXTENDED_KEY_USAGE);
  const purposes: string[] = usage?.parsedValue?.keyPurposes ?? [];
  if (!usage?.critical || purposes.length !== 1 || purposes[0] !== TIME_STAMPING) {
    throw new Unfit("The certificate that signed it is not one for time stamps.");
  }
  const attributes = signedData.signerInfos[0]?.signedAttrs?.attributes ?? [];
  const type = attributes.find(({ type: oid }) => oid === CONTENT_TYPE)?.values[0];
  if (type?.valueBlock.toString() !== pki.id_eContentType_TSTInfo) {
    throw new Unfit("What it signs is not marked as a time stamp.");
  }
  if (!(await namesCertificate(attributes, new Uint8Array(signer.toSchema().toBER(false))))) {
    throw new Unfit("It does not name the certificate that signed it.");
  }
}

/** At the moment of the stamp: that a certificate runs out later takes nothing from it. */
async function checkChain(
  signedData: pki.SignedData,
  signer: pki.Certificate,
  checkDate: Date,
  roots: string,
): Promise<TimeStamp["chain"] & object> {
  const enclosed = signedData.certificates?.filter((one) => one instanceof pki.Certificate) ?? [];
  const engine = new pki.CertificateChainValidationEngine({
    trustedCerts: readCertificates(roots),
    certs: [...enclosed.filter((one) => one !== signer), signer],
    checkDate,
  });
  const { result, resultMessage } = await engine.verify();
  return result ? { ok: true } : { ok: false, problem: resultMessage };
}

const hex = (bytes: Uint8Array): string =>
  Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
