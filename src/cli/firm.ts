import { randomBytes } from "node:crypto";
import { parseArgs } from "node:util";
import { z } from "zod";
import { isTimeZone } from "../domain/dates/zone-time.ts";
import { foundFirm } from "../features/firms/store.ts";
import { addPerson } from "../features/people/add-person.ts";
import { copyAllStarters } from "../features/plans/copy-starter.ts";
import { hashPassword } from "../features/session/password.ts";
import { LANGUAGES } from "../language/languages.ts";
import { withDatabase } from "./database.ts";

const FIRM = z.object({
  name: z.string().min(1, "--name is missing").max(120),
  "time-zone": z
    .string()
    .refine(isTimeZone, "--time-zone must be an IANA zone such as Europe/London"),
  units: z.enum(["metric", "us"]).default("metric"),
  "owner-name": z.string().min(1).max(120),
  "owner-email": z.email().max(254),
  language: z.enum(LANGUAGES).default("en"),
  "starter-plans": z.boolean().default(false),
});

export async function addFirm(args: string[]): Promise<void> {
  const firm = readOptions(FIRM, args);
  const password = firstPassword();
  const passwordHash = await hashPassword(password);
  await withDatabase(async (db) => {
    const { firmId, result: plans } = await foundFirm(
      db,
      {
        ...{ name: firm.name, timeZone: firm["time-zone"] },
        ...{ unitSystem: firm.units, language: firm.language },
      },
      async (tx) => {
        await addPerson(tx, {
          email: firm["owner-email"],
          name: firm["owner-name"],
          roles: ["owner", "manager", "office"],
          passwordHash,
          passwordGivenAt: new Date(),
        });
        return firm["starter-plans"] ? copyAllStarters(tx, firm.language) : [];
      },
    );
    console.log(`Firm ${firm.name} is founded: ${firmId}`);
    if (plans.length > 0) {
      console.log(`Its plans are drafts, to be checked and published: ${codesOf(plans)}`);
    }
    console.log(
      `${firm["owner-email"]} signs in with ${password} (change it after the first sign-in)`,
    );
  });
}

const codesOf = (plans: readonly { code: string }[]): string =>
  plans.map(({ code }) => code).join(", ");

/**
 * Reads `--name value` options into the schema, `--name` where it takes true or false; throws one
 * sentence about what is wrong.
 */
export function readOptions<Schema extends z.ZodObject>(
  schema: Schema,
  args: string[],
): z.infer<Schema> {
  const options = Object.fromEntries(
    Object.entries(schema.shape).map(([name, value]) => [name, { type: optionType(value) }]),
  );
  const { values } = parseArgs({ args, options, strict: true });
  const parsed = schema.safeParse(values);
  if (parsed.success) return parsed.data;
  throw new Error(
    parsed.error.issues.map((issue) => `--${issue.path.join(".")}: ${issue.message}`).join("\n"),
  );
}

const optionType = (value: z.core.$ZodType): "boolean" | "string" =>
  z.safeParse(value, true).success ? "boolean" : "string";

export const firstPassword = (): string => randomBytes(15).toString("base64url");
