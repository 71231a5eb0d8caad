import { z } from "zod";
import { isTimeZone } from "../../domain/dates/zone-time.ts";
import { LANGUAGES } from "../../language/languages.ts";
import { longText, shortText, webAddress } from "../../web/fields.ts";
import { contrastWithWhite, LEGIBLE_CONTRAST } from "./legible.ts";

/** A text that may be left out. */
const orNone = <Text extends z.ZodType<string>>(text: Text) => z.union([z.literal(""), text]);

const ADDRESS_LINES_MOST = 5;

export const branding = {
  address: orNone(
    longText(400).refine(
      (text) => text.split("\n").length <= ADDRESS_LINES_MOST,
      `at most ${ADDRESS_LINES_MOST} lines`,
    ),
  ).describe("as it stands on documents, line by line"),
  phone: orNone(shortText(40)),
  email: orNone(z.email().max(254)),
  website: orNone(webAddress(200)),
  registrations: orNone(longText(600)).describe("numbers of the firm's registrations"),
  colour: z
    .string()
    .regex(/^#[0-9a-f]{6}$/, "must be a colour such as #14524d")
    .refine(
      (colour) => contrastWithWhite(colour) >= LEGIBLE_CONTRAST,
      "is too light to be read on white paper; choose a darker one",
    )
    .describe("of headings on documents; dark enough to be read on white (WCAG 2.2, 1.4.3)"),
};

const base = z
  .strictObject({
    latitude: z.number().min(-90).max(90),
    longitude: z.number().min(-180).max(180),
  })
  .nullable()
  .describe("where crews start and come home to; null where nobody has said");

const facts = {
  name: shortText(120),
  timeZone: z
    .string()
    .max(64)
    .refine(isTimeZone, "must be an IANA time zone such as Europe/London")
    .meta({ examples: ["Europe/London"] }),
  unitSystem: z.enum(["metric", "us"]),
  language: z.enum(LANGUAGES).describe("of mails to customers and of documents"),
  base,
};

export const FirmEdit = z.strictObject({ ...facts, ...branding }).partial();
export type FirmEdit = z.infer<typeof FirmEdit>;

export const Firm = z
  .object({
    id: z.guid(),
    ...facts,
    name: z.string(),
    timeZone: z.string().describe("IANA time zone"),
    address: z.string().describe("as it stands on documents, line by line"),
    phone: z.string(),
    email: z.string(),
    website: z.string(),
    registrations: z.string().describe("numbers of the firm's registrations"),
    colour: z.string().describe("of headings on documents"),
    hasMark: z.boolean().describe("whether a mark is kept"),
    version: z.number().int(),
  })
  .meta({ id: "Firm" });

export const MARK_BYTES_MOST = 2 * 1024 * 1024;
