import { sealKey, unsealKey } from "../evidence/sealed-key.ts";

export const seal = (dataFolder: string, endpointId: string, secret: string) =>
  new Uint8Array(sealKey(dataFolder, endpointId, Buffer.from(secret, "utf8")));

/** The secrets that sign now: the present one, and for a while the one before it. */
export function secretsOf(
  dataFolder: string,
  endpoint: {
    id: string;
    sealedSecret: Uint8Array;
    sealedPrevious: Uint8Array | null;
    previousUntil: Date | null;
  },
  now: Date,
): string[] {
  const previous =
    endpoint.previousUntil !== null && endpoint.previousUntil > now
      ? endpoint.sealedPrevious
      : null;
  return [endpoint.sealedSecret, previous].flatMap((bytes) => {
    const opened = bytes === null ? undefined : unsealKey(dataFolder, endpoint.id, bytes);
    return opened ? [opened.toString("utf8")] : [];
  });
}
