import { z } from "zod";
import { inFirm } from "../db/scope.ts";
import { readFirm } from "../features/firms/store.ts";
import { addPerson } from "../features/people/add-person.ts";
import { GIVEN_LIFE_DAYS } from "../features/session/given-password.ts";
import { hashPassword } from "../features/session/password.ts";
import { ROLES } from "../web/roles.ts";
import { withDatabase } from "./database.ts";
import { firstPassword, readOptions } from "./firm.ts";

const PERSON = z.object({
  firm: z.guid(),
  name: z.string().min(1).max(120),
  email: z.email().max(254),
  roles: z
    .string()
    .transform((text) => text.split(","))
    .pipe(z.array(z.enum(ROLES)).min(1)),
});

export async function addPersonToFirm(args: string[]): Promise<void> {
  const person = readOptions(PERSON, args);
  const password = firstPassword();
  const passwordHash = await hashPassword(password);
  await withDatabase(async (db) => {
    await inFirm(db, person.firm, async (tx) => {
      await readFirm(tx);
      await addPerson(tx, {
        email: person.email,
        name: person.name,
        roles: person.roles,
        passwordHash,
        passwordGivenAt: new Date(),
      });
    });
    console.log(
      `${person.email} signs in with ${password} for ${GIVEN_LIFE_DAYS} days (change it by then)`,
    );
  });
}
