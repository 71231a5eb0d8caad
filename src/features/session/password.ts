import { hash, verify } from "@node-rs/argon2";

// argon2id at the sizes OWASP's Password Storage Cheat Sheet gives: 19 MiB, two passes, one lane.
const SIZES = { memoryCost: 19_456, timeCost: 2, parallelism: 1 };

export const hashPassword = (password: string): Promise<string> => hash(password, SIZES);

/** Kept by other sizes than those of today: whoever signs in with it has it hashed anew. */
export const isOutdated = (stored: string): boolean => {
  const { memoryCost, timeCost, parallelism } = SIZES;
  return !stored.startsWith(`$argon2id$v=19$m=${memoryCost},t=${timeCost},p=${parallelism}$`);
};

let decoy: Promise<string> | undefined;

/**
 * Takes as long for an address nobody has as for a wrong password, so that neither can be told
 * apart.
 */
export async function passwordMatches(stored: string | null, typed: string): Promise<boolean> {
  decoy ??= hashPassword("nobody's password");
  const matches = await verify(stored ?? (await decoy), typed);
  return stored !== null && matches;
}
