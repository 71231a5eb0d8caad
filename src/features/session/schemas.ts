import { z } from "zod";
import { LANGUAGES } from "../../language/languages.ts";
import { ROLES } from "../../web/roles.ts";

export const SignInRequest = z.strictObject({
  email: z
    .email()
    .max(254)
    .meta({ examples: ["office@alder.example"] }),
  password: z
    .string()
    .min(1)
    .max(200)
    .meta({ examples: ["a long pass phrase"] }),
  code: z
    .string()
    .max(40)
    .optional()
    .describe("of the second step, where one is set up: six digits, or a recovery code"),
});

export const RefreshRequest = z.strictObject({
  refreshToken: z
    .string()
    .max(300)
    .optional()
    .describe("left out by browsers, which send their cookie"),
});

export const Who = z.object({
  personId: z.guid(),
  firmId: z.guid(),
  name: z.string(),
  roles: z.array(z.enum(ROLES)),
  language: z.enum(LANGUAGES).describe("the person's own, or else the firm's"),
});

export const SessionReply = z.object({
  accessToken: z
    .string()
    .optional()
    .describe("send as Authorization: Bearer …; left out for browsers, which have it as a cookie"),
  refreshToken: z
    .string()
    .optional()
    .describe("good for one refresh within 30 days; left out for browsers likewise"),
  expiresInS: z.number().int(),
  person: Who,
});
