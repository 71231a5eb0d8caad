// Requirement: the facts a tablet keeps form an unbroken row that the server can check: each names
// the hash of the one before (RFC 8785 canonical form, FIPS 180-4 SHA-256).
import { canonicalize } from "./canonical-json.ts";
import { sha256HexSync, utf8 } from "./sha256.ts";

/** What the first operation of a device names as the one before it. */
export const NO_OPERATION = "0".repeat(64);

/**
 * Hash of one operation, as the next one names it: SHA-256, lower-case hex, over the UTF-8 bytes of
 * its RFC 8785 form. At once, not as a promise: a browser's store closes a transaction that waits.
 * @param operation the whole operation as it is sent, plain JSON values only
 */
export const operationHash = (operation: object): string =>
  sha256HexSync(utf8(canonicalize(operation)));
