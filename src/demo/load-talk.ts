// Messages, ticks, documents and snags that were seen to, on jobs of the scenario.
import { inFirm } from "../db/scope.ts";
import { receiveDocument } from "../features/documents/keep-document.ts";
import { takeTickBack, tickLine } from "../features/kit/job-kit.ts";
import { writeMessage } from "../features/messages/write-message.ts";
import { followUpSnag } from "../features/snags/follow-up-snag.ts";
import { mendSnag } from "../features/snags/mend-snag.ts";
import { listSnags } from "../features/snags/store.ts";
import { minutesAfter, workingDay } from "./calendar.ts";
import { onePagePdf } from "./one-page-pdf.ts";
import { type Firm, find, personOf, sessionOf } from "./scene.ts";
import { DOCUMENTS, FOLLOWED_UP, MENDED, MESSAGES, TICKS } from "./tables/talk.ts";

type JobIds = ReadonlyMap<string, string>;

export async function loadTalk(firm: Firm, jobIds: JobIds): Promise<void> {
  await inFirm(firm.db, firm.firmId, async (tx) => {
    for (const { job, by, hoursAgo, text, fromTablet = false } of MESSAGES) {
      const personId = personOf(firm, by).id;
      const message = { jobId: find(jobIds, job), text, personId, fromTablet };
      await writeMessage(tx, message, minutesAfter(firm.now, -60 * hoursAgo));
    }
    for (const { job, line, by, undoneBy } of TICKS) {
      const jobId = find(jobIds, job);
      const at = minutesAfter(firm.now, -50);
      const { row } = await tickLine(tx, jobId, line, personOf(firm, by).id, at);
      if (undoneBy === undefined) continue;
      const later = minutesAfter(at, 20);
      await takeTickBack(tx, jobId, row.id, personOf(firm, undoneBy).id, later);
    }
  });
  for (const { job, by, name, lines } of DOCUMENTS) {
    const document = { jobId: find(jobIds, job), name, bytes: onePagePdf(lines) };
    const session = sessionOf(firm, personOf(firm, by));
    await receiveDocument(firm.db, firm, session, document, firm.now);
  }
  await seeToSnags(firm, jobIds);
}

async function seeToSnags(firm: Firm, jobIds: JobIds): Promise<void> {
  await inFirm(firm.db, firm.firmId, async (tx) => {
    const snagOf = async (job: string): Promise<string> => {
      const [snag] = await listSnags(tx, { jobId: find(jobIds, job), most: 1 });
      if (!snag) throw new Error(`${job} has no snag`);
      return snag.id;
    };
    const mended = { photos: [], note: MENDED.note };
    const mendedBy = personOf(firm, MENDED.by).id;
    await mendSnag(tx, await snagOf(MENDED.job), mended, mendedBy, minutesAfter(firm.now, -90));
    const { job, by, visit } = FOLLOWED_UP;
    const local = {
      day: workingDay(firm.today, visit.day).toString(),
      ...{ from: visit.from, to: visit.to },
    };
    const wish = { visit: { crewId: find(firm.crewIds, visit.crew), local, instrumentIds: [] } };
    await followUpSnag(tx, await snagOf(job), wish, personOf(firm, by).id, firm.now, {});
  });
}
