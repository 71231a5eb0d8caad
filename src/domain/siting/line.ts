// Names end up in drawings (XML), pages and stored JSON. None of the three holds a control
// character or half a surrogate pair, so documents with such names are refused where they are read.
import { z } from "zod";
import { textFault } from "../texts/text-fault.ts";

/** One line of text, trimmed, 1 to `most` characters. */
export const lineSchema = (most: number) =>
  z
    .string()
    .trim()
    .min(1)
    .max(most)
    .superRefine((text, context) => {
      const fault = textFault(text, "one");
      if (fault) context.addIssue({ code: "custom", message: fault });
    });
