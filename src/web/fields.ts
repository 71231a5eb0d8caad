// Kinds of field that many schemas share.
import { z } from "zod";

/** One line of text: trimmed, not empty, without control characters. */
export const shortText = (most: number) =>
  z
    .string()
    .trim()
    .min(1, "must not be empty")
    .max(most)
    .refine(isPlainLine, "must be one line without control characters")
    .refine((text) => text.isWellFormed(), "must be well-formed Unicode");

// biome-ignore lint/suspicious/noControlCharactersInRegex: refusing them is the point
const CONTROL = /[\u0000-\u001f\u007f]/;
function isPlainLine(text: string): boolean {
  return !CONTROL.test(text);
}

/** Several lines of text; only the control characters that lay out lines. */
export const longText = (most: number) =>
  z
    .string()
    .trim()
    .min(1, "must not be empty")
    .max(most)
    .refine(isLaidOut, "must not hold control characters")
    .refine((text) => text.isWellFormed(), "must be well-formed Unicode");

const isLaidOut = (text: string): boolean => !CONTROL.test(text.replaceAll(/[\n\r\t]/g, ""));

/** Text that is kept or looked for as it was typed: it may be empty, and blanks stay around it. */
export const typedText = (most: number) =>
  z
    .string()
    .max(most)
    .refine(isLaidOut, "must not hold control characters")
    .refine((text) => text.isWellFormed(), "must be well-formed Unicode");

/** The same on one line. */
export const typedLine = (most: number) =>
  z
    .string()
    .max(most)
    .refine(isPlainLine, "must be one line without control characters")
    .refine((text) => text.isWellFormed(), "must be well-formed Unicode");

/** A reference that people can say aloud: J-2026-0142. */
export const reference = (letter: string) =>
  z
    .string()
    .meta({ examples: [`${letter}-2026-0142`] })
    .describe("a reference to say aloud");

export const dateTime = () =>
  z.iso.datetime({ offset: true }).meta({ examples: ["2026-11-25T09:30:00+00:00"] });
export const plainDate = () => z.iso.date().meta({ examples: ["2026-11-25"] });

export const IdParams = z.object({ id: z.guid().describe("UUID") });
