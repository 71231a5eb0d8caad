// Kinds of field that many schemas share.
import { z } from "zod";

// biome-ignore lint/suspicious/noControlCharactersInRegex: refusing them is the point
const CONTROL = /[\u0000-\u001f\u007f]/;
const LAYOUT = /[\n\r\t]/g;

const wellFormed = (text: z.ZodString) =>
  text.refine((typed) => typed.isWellFormed(), "must be well-formed Unicode");

const onOneLine = (text: z.ZodString) =>
  wellFormed(
    text.refine((typed) => !CONTROL.test(typed), "must be one line without control characters"),
  );

/** Only the control characters that lay out lines. */
const inLines = (text: z.ZodString) =>
  wellFormed(
    text.refine(
      (typed) => !CONTROL.test(typed.replaceAll(LAYOUT, "")),
      "must not hold control characters",
    ),
  );

const filled = (most: number) => z.string().trim().min(1, "must not be empty").max(most);

/** One line of text: trimmed, not empty, without control characters. */
export const shortText = (most: number) => onOneLine(filled(most));

/** Several lines of text, trimmed and not empty. */
export const longText = (most: number) => inLines(filled(most));

/** Text that is kept or looked for as it was typed: it may be empty, and blanks stay around it. */
export const typedText = (most: number) => inLines(z.string().max(most));

/** The same on one line. */
export const typedLine = (most: number) => onOneLine(z.string().max(most));

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
