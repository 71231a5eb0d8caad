import type { FirmTransaction } from "../../db/scope.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { dayAndTime } from "../../language/moments.ts";
import { isMessageKey, say } from "../../language/say.ts";
import { readFirm } from "../firms/store.ts";
import { fieldName } from "./shown.ts";
import { type ChangeKind, type ChangeRow, customerReferences, listChanges } from "./store.ts";

export interface ChangesQuestion {
  kind: ChangeKind;
  subjectId: string;
  /** Id of the change that was just made, from the address. */
  saved?: string | undefined;
  mayUndo: boolean;
  /** Where the page of the thing is. */
  path: string;
}

const SHOWN_MOST = 20;

/** What parts/changes.hbs and parts/saved.hbs show. */
export async function changesView(
  tx: FirmTransaction,
  question: ChangesQuestion,
  language: ShownLanguage,
) {
  const { kind, subjectId, saved, mayUndo, path } = question;
  const rows = await listChanges(tx, { kind, subjectId, most: SHOWN_MOST });
  const { timeZone } = await readFirm(tx);
  const names = await customerReferences(tx, rows.flatMap(customerIds));
  const shown = rows.map((row, index) => ({
    ...changeLines(row, names, language),
    id: row.id,
    when: dayAndTime(language, row.at, timeZone),
    who: row.person?.name ?? say(language, "registry.byProgram"),
    takesBack: row.undoesId !== null,
    undo: mayUndo && index === 0 ? `${path}/undo` : undefined,
  }));
  return { changes: shown, saved: shown.find(({ id }) => id === saved) };
}

const customerIds = ({ before, after }: ChangeRow): string[] =>
  [before, after].flatMap((side) => {
    const id = (side as Record<string, unknown>).customer_id;
    return typeof id === "string" ? [id] : [];
  });

function changeLines(row: ChangeRow, names: ReadonlyMap<string, string>, language: ShownLanguage) {
  const [before, after] = [row.before, row.after] as Record<string, unknown>[];
  const text = (value: unknown): string => {
    if (value === null || value === undefined || value === "") {
      return say(language, "registry.nothing");
    }
    if (typeof value === "boolean") return say(language, value ? "registry.yes" : "registry.no");
    if (Array.isArray(value)) return value.map((one) => wordOf(one, language)).join(", ");
    return (
      names.get(String(value)) ??
      (typeof value === "object" ? JSON.stringify(value) : String(value))
    );
  };
  const lines = Object.keys(after ?? {}).map((column) => {
    const key = `registry.field.${fieldName(column)}`;
    return {
      name: isMessageKey(key) ? say(language, key) : column,
      before: text(before?.[column]),
      after: text(after?.[column]),
    };
  });
  return { lines };
}

/** The word for a role, or what stands there. */
function wordOf(value: unknown, language: ShownLanguage): string {
  const key = `role.${value}`;
  return isMessageKey(key) ? say(language, key) : String(value);
}
