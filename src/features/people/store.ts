import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";
import type { Role } from "../../web/roles.ts";

export interface NewPersonRow {
  email: string;
  name: string;
  roles: Role[];
  passwordHash: string | null;
}

export async function addPerson(tx: FirmTransaction, person: NewPersonRow) {
  return tx.person.create({ data: { firmId: tx.firmId, id: uuidv7(), ...person } });
}
