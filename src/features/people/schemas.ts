import { z } from "zod";
import { plainDate, refuseFaults, shortText, typedText } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";
import { ROLES } from "../../web/roles.ts";
import { DAYS_USUAL } from "../audit-access/schemas.ts";
import { GIVEN_LIFE_DAYS } from "../session/given-password.ts";
import { PASSWORD_LENGTH_MIN } from "./breached-passwords.ts";

const roles = z
  .array(z.enum(ROLES))
  .min(1, "a person has at least one role")
  .max(ROLES.length)
  .refine((list) => new Set(list).size === list.length, "must not name a role twice")
  .meta({ examples: [["installer"]] });

export const newPassword = z
  .string()
  .min(
    PASSWORD_LENGTH_MIN,
    "must have at least 12 characters: a phrase of several words is easiest to keep",
  )
  .max(200)
  .superRefine(refuseFaults())
  .meta({ examples: ["seven quiet lanterns drift"] });

const editable = {
  name: shortText(120).meta({ examples: ["Hanne Osei"] }),
  roles,
};

export const NewPerson = z.strictObject({
  ...editable,
  email: z
    .email()
    .max(254)
    .meta({ examples: ["hanne@alder.example"] }),
  password: newPassword.describe(
    `the first one, good for ${GIVEN_LIFE_DAYS} days: by then the person sets another`,
  ),
  auditUntil: plainDate()
    .optional()
    .describe(
      `last day that somebody who is an auditor alone sees the firm; ${DAYS_USUAL} days from ` +
        "today where none is given",
    ),
});

export const PersonEdit = z
  .strictObject({ ...editable, active: z.boolean() })
  .partial()
  .describe("Changing roles or active signs the person out on every device.");

export const OwnPassword = z.strictObject({
  presentPassword: z
    .string()
    .min(1)
    .max(200)
    .meta({ examples: ["the pass phrase until now"] }),
  password: newPassword,
});

export const PasswordReset = z.strictObject({ password: newPassword });

export const Person = z
  .object({
    id: z.guid(),
    email: z.string(),
    name: z.string(),
    roles: z.array(z.enum(ROLES)),
    active: z.boolean(),
    createdAt: z.iso.datetime({ offset: true }),
    version: z.number().int(),
  })
  .meta({ id: "Person" });

export const PersonPage = pageOf(Person);
export const PersonQuery = z.strictObject({
  ...PAGE_QUERY,
  name: typedText(120).optional().describe("part of the name"),
  role: z.enum(ROLES).optional(),
  active: z.stringbool().default(true).describe("false lists those who no longer sign in"),
});
