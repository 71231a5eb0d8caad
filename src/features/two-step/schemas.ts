import { z } from "zod";
import { ROLES } from "../../web/roles.ts";

export const Code = z.strictObject({
  code: z
    .string()
    .trim()
    .min(6)
    .max(40)
    .meta({ examples: ["287082"] }),
});
export const PresentPassword = z.strictObject({
  presentPassword: z
    .string()
    .min(1)
    .max(200)
    .meta({ examples: ["the pass phrase until now"] }),
});
export const Enrolment = z.object({
  secret: z.string().describe("base 32, for those who type it"),
  uri: z.string().describe("for an authenticator, also as a picture"),
});
export const RecoveryCodes = z.object({
  recoveryCodes: z.array(z.string()).describe("each signs in once; shown this once"),
});
export const TwoStepRoles = z.strictObject({ roles: z.array(z.enum(ROLES)).max(ROLES.length) });
