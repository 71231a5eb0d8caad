import type { FirmTransaction } from "../../db/scope.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { plainDay } from "../../language/moments.ts";
import { domainTerms } from "./judge.ts";
import { dayText } from "./keep-warranty.ts";
import { listTerms, type TermsRow } from "./store.ts";
import { termsWords } from "./warranty-view.ts";

export const versionOf = (row: TermsRow, latest: boolean, language: ShownLanguage) => ({
  ...{ number: row.number, source: row.source, latest },
  from: plainDay(language, dayText(row.appliesFrom)),
  words: termsWords(domainTerms(row), language),
});

/** The latest version, for the page of the model itself. */
export async function latestTerms(tx: FirmTransaction, modelId: string, language: ShownLanguage) {
  const [latest] = await listTerms(tx, modelId, { most: 1 });
  return latest && versionOf(latest, true, language);
}
