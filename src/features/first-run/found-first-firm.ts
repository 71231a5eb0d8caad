import { timingSafeEqual } from "node:crypto";
import type { Database } from "../../db/client.ts";
import { Problem } from "../../errors.ts";
import type { Language } from "../../language/languages.ts";
import { foundFirm } from "../firms/store.ts";
import { addPerson } from "../people/add-person.ts";
import { refuseGuessablePassword } from "../people/guessable-password.ts";
import { copyAllStarters } from "../plans/copy-starter.ts";
import { hashPassword } from "../session/password.ts";
import { noteFailure, refuseWhenThrottled } from "../session/throttle.ts";
import { isFirstFirm } from "./store.ts";

export interface FirstFirm {
  setupCode: string;
  firmName: string;
  timeZone: string;
  unitSystem: "metric" | "us";
  language: Language;
  ownerName: string;
  email: string;
  password: string;
}

/** Only the installation's first firm is founded over the web, and only with its setup code. */
export async function foundFirstFirm(
  db: Database,
  firm: FirstFirm,
  { setupCode, ip }: { setupCode: string; ip: string },
): Promise<void> {
  await refuseWhenThrottled(db, "setup code", ip);
  if (!sameCode(firm.setupCode, setupCode)) {
    await noteFailure(db, "setup code", ip);
    throw new Problem("invalid-input", "The setup code is another one.", {
      errors: [{ pointer: "/body/setupCode", detail: "is not what the service printed" }],
    });
  }
  await refuseGuessablePassword(firm.password, { email: firm.email, name: firm.ownerName });
  const passwordHash = await hashPassword(firm.password);
  const { firmName: name, timeZone, unitSystem, language } = firm;
  await foundFirm(db, { name, timeZone, unitSystem, language }, async (tx) => {
    if (!(await isFirstFirm(tx))) {
      throw new Problem("conflict", "There is a firm already. Sign in, or ask its owner.");
    }
    await addPerson(tx, {
      email: firm.email,
      name: firm.ownerName,
      roles: ["owner", "manager", "office"],
      passwordHash,
    });
    await copyAllStarters(tx, language);
  });
}

function sameCode(typed: string, wanted: string): boolean {
  const bytes = Buffer.from(typed.replace(/[\s-]/g, "").toUpperCase().padEnd(wanted.length));
  return bytes.length === wanted.length && timingSafeEqual(bytes, Buffer.from(wanted));
}
