// Kinds of field that many schemas share.
import { z } from "zod";
import { faultsInJson, type Path } from "../domain/texts/faults-in-json.ts";
import { type Lines, textFault } from "../domain/texts/text-fault.ts";

/** A refinement by what `textFault` says of the text. */
const keptWhole = (text: z.ZodString, lines: Lines) =>
  text.superRefine((typed, context) => {
    const fault = textFault(typed, lines);
    if (fault) context.addIssue({ code: "custom", message: fault });
  });

const onOneLine = (text: z.ZodString) => keptWhole(text, "one");

/** Only the control characters that lay out lines. */
const inLines = (text: z.ZodString) => keptWhole(text, "many");

const filled = (most: number) => z.string().trim().min(1, "must not be empty").max(most);

/** One line of text: trimmed, not empty, without control characters. */
export const shortText = (most: number) => onOneLine(filled(most));

/** Several lines of text, trimmed and not empty. */
export const longText = (most: number) => inLines(filled(most));

/** Text that is kept or looked for as it was typed: it may be empty, and blanks stay around it. */
export const typedText = (most: number) => inLines(z.string().max(most));

/** The same on one line. */
export const typedLine = (most: number) => onOneLine(z.string().max(most));

/** For `superRefine` of free JSON: no text in it, and no name, that cannot be kept as it is. */
export const refuseFaults =
  (linesAt: (path: Path) => Lines = () => "one") =>
  (json: unknown, context: z.core.$RefinementCtx): void => {
    for (const { path, fault } of faultsInJson(json, linesAt)) {
      context.addIssue({ code: "custom", path: [...path], message: fault });
    }
  };

/**
 * A web address as it was typed: the URL Standard, and zod's own kind with it, takes tabs and line
 * ends out of one without a word.
 */
export const webAddress = (most: number) =>
  z
    .string()
    .trim()
    .max(most)
    .superRefine((typed, context) => {
      const isWeb = /^https?:$/.test(URL.parse(typed)?.protocol ?? "");
      const fault = textFault(typed, "one") ?? (isWeb ? undefined : "Invalid URL");
      if (fault) context.addIssue({ code: "custom", message: fault });
    })
    .meta({ format: "uri" });

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
