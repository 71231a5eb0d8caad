// The tablet's owner may have gone home: who sends is signed in, who kept the fact is named in it.
// What that person may do is asked of today's roles, as at any other request.
import { Problem } from "../../errors.ts";
import { ROLES, type Role } from "../../web/roles.ts";
import type { OpPayload } from "./schemas.ts";

/** As src/access.ts has it for the same done by a request of its own. */
export const ROLES_BY_KIND: Readonly<Record<OpPayload["kind"], readonly Role[]>> = {
  answer: ["installer", "manager"],
  "stage-time": ROLES,
  snag: ["owner", "office", "manager", "installer"],
  message: ["owner", "office", "manager", "installer"],
  "close-out": ["installer", "office", "manager"],
};

const WHAT = {
  answer: "An answer",
  "stage-time": "A stage's time",
  snag: "A snag",
  message: "A message",
  "close-out": "A close-out",
} as const satisfies Record<OpPayload["kind"], string>;

export function requirePerson(
  person: { name: string; roles: readonly string[] } | null,
  kind: OpPayload["kind"],
): void {
  if (!person) {
    throw new Problem("not-found", "The person who kept this on the tablet is not in your firm.");
  }
  const allowed = ROLES_BY_KIND[kind];
  if (allowed.some((role) => person.roles.includes(role))) return;
  throw new Problem(
    "not-allowed",
    `${WHAT[kind]} takes the role ${allowed.join(" or ")}; ${person.name} has ` +
      `${person.roles.join(", ") || "none"}.`,
  );
}
