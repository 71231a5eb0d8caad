// The made-up language of src/language/languages.ts, for seeing what is not from the catalogue.
import { pseudoMessage } from "../../language/pseudo.ts";
import { TABLET_ENGLISH, type TabletTexts } from "../../language/tablet-english.ts";

export const PSEUDO_TEXTS = Object.fromEntries(
  Object.entries(TABLET_ENGLISH).map(([key, text]) => [key, pseudoMessage(text)]),
) as TabletTexts;
