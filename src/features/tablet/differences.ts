// Two people on one job without signal may answer the same. Both answers are kept; that they did
// not know of each other is told in words, and a person looks.
import { transactionQuery } from "../../db/query.ts";
import type { FirmTransaction } from "../../db/scope.ts";
import { canonicalize } from "../../domain/evidence/canonical-json.ts";
import { planOfJob } from "../job-record/plan-store.ts";
import { type DifferenceRow, listDifferenceRows } from "./difference-store.ts";

export interface Difference {
  itemId: string;
  itemTitle: string;
  subject: string;
  subjectLabel: string;
  /** All of them gave the same value. */
  same: boolean;
  sentence: string;
  answers: Omit<DifferenceRow, "lateId" | "itemId" | "subject" | "serial" | "value">[];
}

/** Undefined when the firm has no such job. */
export async function differencesOf(
  tx: FirmTransaction,
  jobId: string,
): Promise<Difference[] | undefined> {
  const plan = await planOfJob(transactionQuery(tx), tx.firmId, jobId);
  if (!plan) return undefined;
  const rows = await listDifferenceRows(tx, jobId);
  return [...Map.groupBy(rows, ({ lateId }) => lateId).values()].flatMap((group) => {
    const [first] = group;
    // Cut off at the bound, or the other one was the tablet's own after all.
    if (!first || group.length < 2) return [];
    const { itemId, subject } = first;
    const same = new Set(group.map(({ value }) => canonicalize(value))).size === 1;
    return [
      {
        itemId,
        itemTitle: plan.byId.get(itemId)?.item.title ?? itemId,
        subject,
        subjectLabel: first.serial ?? subject,
        same,
        sentence: inWords(group, same),
        answers: group.map(answerOf),
      },
    ];
  });
}

function answerOf(row: DifferenceRow): Difference["answers"][number] {
  const { id, outcome, sentence, takenAt, receiptOrder, personId, personName, deviceId } = row;
  const { counts } = row;
  return { id, outcome, sentence, takenAt, receiptOrder, personId, personName, deviceId, counts };
}

function inWords(group: readonly DifferenceRow[], same: boolean): string {
  const devices = new Set(group.map(({ deviceId }) => deviceId));
  const fromOffice = devices.delete(null);
  const tablets = devices.size === 2 ? "Two tablets" : `${devices.size} tablets`;
  const who = fromOffice ? "A tablet and the office" : tablets;
  const told = group.map(
    ({ personName, takenAt, sentence }) => `${personName} at ${takenAt.slice(11, 16)}: ${sentence}`,
  );
  const counting = group.find(({ counts }) => counts);
  const standing = counting
    ? `What ${counting.personName} took last counts.`
    : "It was answered again since, and that counts.";
  return `${who} answered this${same ? " alike" : ""}: ${told.join(" ")} ${standing}`;
}
