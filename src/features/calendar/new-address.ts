import type { Config } from "../../config.ts";
import type { FirmTransaction } from "../../db/scope.ts";
import { putAddress } from "./address-store.ts";
import { hashOf, newSecret } from "./secret.ts";

/** Makes the person's calendar address; it is shown once, and an earlier one ends at once. */
export async function newAddress(
  tx: FirmTransaction,
  personId: string,
  { now, baseUrl }: { now: Date; baseUrl: string },
): Promise<string> {
  const secret = newSecret();
  await putAddress(tx, personId, hashOf(secret), now);
  return new URL(`/calendar/${secret}.ics`, baseUrl).href;
}

/** Address that people reach the service at: the one that is set, else the one asked at. */
export const baseUrlOf = (config: Config, request: { protocol: string; host: string }): string =>
  config.PUBLIC_URL ?? `${request.protocol}://${request.host}`;
