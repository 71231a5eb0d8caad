import type { FirmTransaction } from "../../db/scope.ts";
import { notFound, Problem } from "../../errors.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import { beginAuditing } from "../audit-access/give-access.ts";
import { revokeAllSessions } from "../session/store.ts";
import { editPerson, findPerson, lockActiveOwners, type PersonChange } from "./store.ts";

/** Changes a person; whoever got other roles, or none, signs in anew to use what they have now. */
export async function editPersonSafely(
  tx: FirmTransaction,
  id: string,
  { version, ...change }: PersonChange & { version: number },
  now: Date,
) {
  const owners = await lockActiveOwners(tx);
  const before = await findPerson(tx, id);
  if (!before) throw notFound("person");
  const roles = change.roles ?? before.roles;
  const active = change.active ?? before.active;
  const staysOwner = active && roles.includes("owner");
  if (!staysOwner && owners.length === 1 && owners[0] === id) {
    throw new Problem(
      "conflict",
      `${before.name} is the firm's last active owner. Make somebody else an owner first.`,
    );
  }
  const row = await editPerson(tx, id, version, change);
  if (!row) throw editedMeanwhile();
  if (active !== before.active || !sameRoles(roles, before.roles)) await revokeAllSessions(tx, id);
  // What stands from before stays: an access is not given anew by any other edit.
  if (!sameRoles(roles, before.roles)) await beginAuditing(tx, row, { now });
  return row;
}

const sameRoles = (a: readonly string[], b: readonly string[]): boolean =>
  a.length === b.length && a.every((role) => b.includes(role));
