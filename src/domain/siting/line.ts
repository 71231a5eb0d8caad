// Names end up in drawings (XML), pages and stored JSON. None of the three holds a control
// character or half a surrogate pair, so documents with such names are refused where they are read.
import { z } from "zod";

/** One line of text, trimmed, 1 to `most` characters. */
export const lineSchema = (most: number) =>
  z
    .string()
    .trim()
    .min(1)
    .max(most)
    .refine((text) => !/\p{Cc}/u.test(text), "must be one line without control characters")
    .refine((text) => text.isWellFormed(), "must be well-formed Unicode");
