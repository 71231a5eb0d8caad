import type { Database } from "../../db/client.ts";
import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import { sealKey, unsealKey } from "../evidence/sealed-key.ts";
import { enrolmentUri, newRecoveryCodes, newTotpSecret, recoveryHash, stepOf } from "./codes.ts";
import {
  confirmSecret,
  keepSecret,
  readTwoStep,
  removeTwoStep,
  type TwoStep,
  useRecovery,
  useStep,
} from "./store.ts";

/** Whether the code, or one of the recovery codes, is the person's; each counts once. */
export async function passesSecondStep(
  db: Database,
  dataFolder: string,
  who: { firmId: string; personId: string },
  code: string,
  now: Date,
): Promise<boolean> {
  return inFirm(db, who.firmId, async (tx) => {
    const person = await readTwoStep(tx, who.personId);
    if (!person?.totpConfirmedAt) return false;
    const secret = openedSecret(dataFolder, person);
    const step = secret === undefined ? undefined : stepOf(secret, code, now);
    if (step !== undefined) return useStep(tx, person.id, step);
    return useRecovery(tx, person.id, recoveryHash(code));
  });
}

/** What the person's authenticator knows, or is to know. */
export const openedSecret = (
  dataFolder: string,
  { id, totpSealed }: TwoStep,
): string | undefined =>
  totpSealed === null ? undefined : unsealKey(dataFolder, id, totpSealed)?.toString("utf8");

/** A fresh secret for the person, to be confirmed by its first code. */
export async function beginEnrolment(
  tx: FirmTransaction,
  dataFolder: string,
  personId: string,
): Promise<{ secret: string; uri: string }> {
  const person = await readTwoStep(tx, personId);
  if (!person) throw notFound("person");
  if (person.totpConfirmedAt) {
    throw new Problem("conflict", "The second step is set up. Take it off before a new one.");
  }
  const secret = newTotpSecret();
  const sealed = new Uint8Array(sealKey(dataFolder, personId, Buffer.from(secret, "utf8")));
  await keepSecret(tx, personId, sealed);
  return { secret, uri: enrolmentUri(secret, person.email) };
}

/** From here on the second step is asked for; the recovery codes are shown this once. */
export async function finishEnrolment(
  tx: FirmTransaction,
  dataFolder: string,
  { personId, code }: { personId: string; code: string },
  now: Date,
): Promise<string[]> {
  const person = await readTwoStep(tx, personId);
  const secret = person ? openedSecret(dataFolder, person) : undefined;
  const step = secret === undefined ? undefined : stepOf(secret, code, now);
  if (step === undefined) throw invalid("/body/code", "is not the code that is shown now");
  const codes = newRecoveryCodes();
  const fields = { step, recoveryHashes: codes.map(recoveryHash), now };
  if (!(await confirmSecret(tx, personId, fields))) {
    throw new Problem("conflict", "The second step is set up already.");
  }
  return codes;
}

/** Takes one's own second step off, with a code of it: a tablet left lying about does not. */
export async function endTwoStep(
  db: Database,
  dataFolder: string,
  who: { firmId: string; personId: string },
  code: string,
  now: Date,
): Promise<void> {
  if (!(await passesSecondStep(db, dataFolder, who, code, now))) {
    throw invalid("/body/code", "is neither the code that is shown now nor a recovery code");
  }
  await inFirm(db, who.firmId, (tx) => removeTwoStep(tx, who.personId));
}
