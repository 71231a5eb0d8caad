// Requirement: whoever brings a table in confirms which column is which; only what is not plain from
// its name is left to choose.
import { foldText } from "../search/fold.ts";

export interface MatchField {
  name: string;
  /** What a column of it may be called, in any language. */
  words: readonly string[];
}

/** The name of a column as it is compared: without capitals, accents and punctuation. */
export const columnKey = (header: string): string => foldText(header).replaceAll(" ", "");

/**
 * The field of each column, null where none is plain; no field twice. What a column of that name
 * meant before comes first, then a name that is the field's own or one of its words.
 * @param remembered field by `columnKey` of the header
 */
export function matchColumns(
  headers: readonly string[],
  fields: readonly MatchField[],
  remembered: ReadonlyMap<string, string>,
): (string | null)[] {
  const keys = headers.map(columnKey);
  const matched: (string | null)[] = headers.map(() => null);
  const taken = new Set<string>();
  const take = (fieldOf: (key: string) => string | undefined): void => {
    for (const [index, key] of keys.entries()) {
      const field = matched[index] === null && key !== "" ? fieldOf(key) : undefined;
      if (field === undefined || taken.has(field)) continue;
      matched[index] = field;
      taken.add(field);
    }
  };
  const names = new Set(fields.map(({ name }) => name));
  take((key) => {
    const field = remembered.get(key);
    return field !== undefined && names.has(field) ? field : undefined;
  });
  take((key) => fields.find(({ name }) => columnKey(name) === key)?.name);
  take((key) => fields.find(({ words }) => words.some((word) => columnKey(word) === key))?.name);
  return matched;
}
