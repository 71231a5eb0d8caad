// An entry of the ledger as a sentence for people. What it states is its text and its hash; this
// only says it more kindly.
import { type JsonObject as Body, ERASED } from "../../domain/evidence/salted-texts.ts";
import type { CompiledPlan } from "../../domain/plan/compile.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { dayAndTime } from "../../language/moments.ts";
import { isMessageKey, say } from "../../language/say.ts";
import type { JobRecord } from "../job-record/store.ts";
import type { HistoryRow } from "./store.ts";

const PERSON_FIELDS = ["personId", "grantedById", "revokedById", "closedById"];

/** Ids of the people that entries name. */
export const peopleIn = (rows: readonly HistoryRow[]): string[] =>
  rows.flatMap((row) => {
    const { body } = row;
    return PERSON_FIELDS.flatMap((field) => textIn(body, field) ?? []);
  });

export interface HistoryWords {
  names: ReadonlyMap<string, string>;
  plan: CompiledPlan;
  record: Pick<JobRecord, "job" | "units">;
  language: ShownLanguage;
}

export function historyLine(
  row: HistoryRow,
  { names, plan, record, language }: HistoryWords,
): { seq: number; at: string; sentence: string; reason: string | undefined } {
  const { body } = row;
  const reason = textIn(body, "reason");
  const personId = PERSON_FIELDS.map((field) => textIn(body, field)).find(Boolean);
  const itemId = textIn(body, "itemId");
  const subject = textIn(body, "subject") ?? textIn(body, "unitId");
  const unit = record.units.find(({ id }) => id === subject);
  const key = `job.ledger.${camel(row.kind)}`;
  const values = {
    person: (personId && names.get(personId)) ?? say(language, "job.someone"),
    item: itemId === undefined ? "" : (plan.byId.get(itemId)?.item.title ?? itemId),
    unit: unit?.serial ?? textIn(body, "serial") ?? "",
    hasUnit: unit || textIn(body, "serial") ? "yes" : "no",
    kind: row.kind,
  };
  return {
    seq: row.seq,
    at: dayAndTime(language, new Date(row.at), record.job.timeZone),
    sentence: say(language, isMessageKey(key) ? key : "job.ledger.other", values),
    reason: reason === ERASED ? say(language, "job.erased") : reason,
  };
}

function textIn(body: Body, field: string): string | undefined {
  const value = body[field];
  return typeof value === "string" && value !== "" ? value : undefined;
}

/** "job.unit-added" is the text jobUnitAdded. */
const camel = (kind: string): string =>
  kind.replaceAll(/[.-]([a-z])/g, (_all, letter: string) => letter.toUpperCase());
