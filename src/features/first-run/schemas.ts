import { z } from "zod";
import { isTimeZone } from "../../domain/dates/zone-time.ts";
import { LANGUAGES } from "../../language/languages.ts";
import { shortText } from "../../web/fields.ts";
import { newPassword } from "../people/schemas.ts";

export const StartForm = z.strictObject({
  setupCode: shortText(40),
  firmName: shortText(120),
  timeZone: z.string().max(60).refine(isTimeZone, "must be a time zone such as Europe/London"),
  unitSystem: z.enum(["metric", "us"]),
  language: z.enum(LANGUAGES),
  ownerName: shortText(120),
  email: z.email().max(254),
  password: newPassword,
});
