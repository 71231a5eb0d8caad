// The dry run: every row is read, judged by how things stand, and told about; nothing is changed.
import { inFirm, inFirmAs } from "../../db/scope.ts";
import type { Delimiter } from "../../domain/tables/delimiter.ts";
import type { Encoding } from "../../domain/tables/encoding.ts";
import { readFirm } from "../firms/store.ts";
import { openImportFile } from "./import-folder.ts";
import { headersOf } from "./inspect-file.ts";
import type { ImportContext } from "./kind.ts";
import { kindOf } from "./kinds.ts";
import { type CsvRecord, readCsv, UnreadableFile } from "./read-csv.ts";
import { type ReadRecord, recordReader } from "./read-record.ts";
import {
  clearRows,
  countOutcomes,
  forgetVerdicts,
  type StagedRow,
  stageRows,
} from "./rows-store.ts";
import { ROWS_MOST } from "./schemas.ts";
import { finishImport } from "./store.ts";
import { GivenUp, type Task } from "./task.ts";

const A_BATCH = 1000;
/** Judging takes seconds for a hundred thousand rows, on a busy machine minutes. */
export const LONG_MS = 30 * 60_000;

export async function checkImport(task: Task): Promise<void> {
  const { desk, row } = task;
  const read = await inFirm(desk.db, desk.firmId, async (tx) => {
    const { timeZone } = await readFirm(tx);
    const readRow = await kindOf(row.kind).open(tx, desk.now());
    return recordReader(row, timeZone, readRow);
  });
  await inFirm(desk.db, desk.firmId, (tx) => clearRows(tx, row.id), LONG_MS);
  await stageFile(task, read);
  await judgeAll(task);
}

async function stageFile(task: Task, read: ReadRecord): Promise<void> {
  const { desk, row } = task;
  const format = {
    encoding: row.encoding as Encoding,
    delimiter: row.delimiter as Delimiter,
  };
  const file = openImportFile({
    ...{ dataFolder: desk.dataFolder, firmId: desk.firmId, importId: row.id },
  });
  let [batch, count]: [StagedRow[], number] = [[], 0];
  const stage = async (): Promise<void> => {
    await inFirm(desk.db, desk.firmId, (tx) => stageRows(tx, row.id, batch));
    count += batch.length;
    batch = [];
    if (count > ROWS_MOST) {
      throw new UnreadableFile(`The file has more than ${ROWS_MOST} rows. Send it in parts.`);
    }
    await task.beat(file.bytesRead);
  };
  for await (const record of withoutHeader(readCsv(file, format), row.headers as string[])) {
    batch.push(read(record));
    if (batch.length === A_BATCH) await stage();
  }
  await stage();
}

/**
 * The header may have changed if the file was exchanged behind our back; rows then mean nothing.
 */
async function* withoutHeader(
  records: AsyncIterable<CsvRecord>,
  expected: readonly string[],
): AsyncGenerator<CsvRecord> {
  let isFirst = true;
  for await (const record of records) {
    if (!isFirst) yield record;
    else if (JSON.stringify(headersOf(record.cells)) !== JSON.stringify(expected)) {
      throw new UnreadableFile("The file is another one by now. Send it again.");
    }
    isFirst = false;
  }
}

/** The verdicts and the word that they are there come together. */
export async function judgeAll(task: Task, problem: string | null = null): Promise<void> {
  const { desk, row, lease } = task;
  const { firmId, now } = desk;
  await task.beat();
  await inFirmAs(
    desk.db,
    { firmId, personId: row.personId },
    async (tx) => {
      await forgetVerdicts(tx, row.id);
      await kindOf(row.kind).judge(tx, contextOf(task));
      const figures = await countOutcomes(tx, row.id);
      const change = { state: "checked", figures, checkedAt: now(), problem } as const;
      if (!(await finishImport(tx, lease, change))) throw new GivenUp();
    },
    LONG_MS,
  );
}

export const contextOf = (task: Task): ImportContext => ({
  ...{ importId: task.row.id, personId: task.row.personId, now: task.desk.now() },
  beat: (done) => task.beat(done),
});
