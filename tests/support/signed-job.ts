// A job on which people wrote wherever the service lets them, and one with an entry of old.
import pg from "pg";
import { uuidv7 } from "uuidv7";
import { inFirm } from "../../src/db/scope.ts";
import { canonicalize } from "../../src/domain/evidence/canonical-json.ts";
import { openBody } from "../../src/domain/evidence/salted-texts.ts";
import { sha256HexSync, utf8 } from "../../src/domain/evidence/sha256.ts";
import type { TestService } from "./app.ts";
import { addJobRows } from "./rows.ts";
import { sendOps, testTablet } from "./tablet-ops.ts";

/** What was written, by where; none of it is the customer's name or address. */
export const WRITTEN = {
  signature: "Wilhelmina Drake",
  note: "Her brother Osric opened the door",
  concession: "Agreed with Thaddeus on the telephone",
  reopening: "Mr Quennell saw that the label was off",
  dismissal: "Barnaby typed it twice",
  snag: "Ask Peregrine about the lid",
  snagDetail: "Philippa has the key",
  mending: "Mrs Ottershaw fitted it herself",
  cancellation: "Sebastian moved to his aunt",
} as const;

/** Stands in the ledger by its plain hash. */
export const OLD_NOTE = "Cornelia put the key under a stone";

const about = (id: string, more: object) => ({
  ...{ id, title: `Item ${id}`, do: "As the maker says.", holdPoint: true, ...more },
});
const PLAN = {
  schema: "plan/1",
  title: "Short and signed",
  decisionRule: "simple",
  attributes: {},
  stages: [
    {
      id: "all",
      title: "All of it",
      items: [
        about("done", { kind: "confirm" }),
        about("holes", { kind: "count", limit: { count: 4 } }),
        about("own", { kind: "sign", whose: "installer" }),
        about("signed", { kind: "sign", whose: "customer" }),
      ],
    },
  ],
};

export async function expectStatus(
  wanted: number,
  sent: PromiseLike<{ status: number; text: string; body: { [name: string]: unknown } }>,
) {
  const reply = await sent;
  if (reply.status !== wanted) throw new Error(`${reply.status}, not ${wanted}: ${reply.text}`);
  return reply.body;
}

export async function signedJob(service: TestService) {
  const { installer, manager, office } = service.firm.people;
  const { jobId, siteId, planVersionId } = await addJobRows(service, PLAN);
  const path = `/api/v1/jobs/${jobId}`;
  const post = (by: { id: string; token: string }, to: string, body?: object) =>
    expectStatus(201, service.as(by).post(to).send(body));
  const answer = (itemId: string, value: object, note?: string) => ({
    ...{ id: uuidv7(), itemId, subject: "", value, takenAt: "2026-11-25T10:00:00+00:00" },
    ...(note === undefined ? {} : { note }),
  });
  const answers = [
    answer("done", { done: true }, WRITTEN.note),
    answer("holes", { count: 3 }),
    answer("own", { name: "installer person" }),
  ];
  await post(installer, `${path}/answers`, { answers });
  const tablet = testTablet(jobId, installer.id);
  const signed = tablet.answer(answer("signed", { name: WRITTEN.signature }));
  await expectStatus(200, sendOps(service, [signed]));
  const conceded = { itemId: "holes", subject: "", reason: WRITTEN.concession };
  const key = `concede-${jobId}`;
  const granting = service.as(manager).post(`${path}/concessions`).set("idempotency-key", key);
  await expectStatus(201, granting.send(conceded));
  const words = { title: WRITTEN.snag, detail: WRITTEN.snagDetail };
  const snag = await post(installer, `${path}/snags`, words);
  await post(installer, `/api/v1/snags/${snag.id}/mending`, { note: WRITTEN.mending });
  await post(installer, `${path}/close-out`);
  const late = tablet.answer(answer("done", { done: true }, WRITTEN.note));
  await expectStatus(200, sendOps(service, [late]));
  const dismissal = `/api/v1/held-operations/${late.opId}/dismissal`;
  await post(office, dismissal, { reason: WRITTEN.dismissal });
  await post(manager, `${path}/reopening`, { reason: WRITTEN.reopening });
  await post(installer, `${path}/close-out`);
  const older = await olderJob(service, { siteId, planVersionId });
  await oldNote(service, older.olderJobId, answer("done", { done: true }, OLD_NOTE));
  const cancelling = `/api/v1/jobs/${older.olderJobId}/cancellation`;
  await post(office, cancelling, { reason: WRITTEN.cancellation });
  return { jobId, siteId, ...older };
}

/** An answer whose entry is made what entries were before texts were salted. */
async function oldNote(service: TestService, jobId: string, answer: { id: string }) {
  const { installer } = service.firm.people;
  const path = `/api/v1/jobs/${jobId}/answers`;
  await expectStatus(
    201,
    service
      .as(installer)
      .post(path)
      .send({ answers: [answer] }),
  );
  const client = new pg.Client({ connectionString: service.ownerUrl });
  await client.connect();
  await client.query("SET session_replication_role = replica");
  const { rows } = await client.query(
    "SELECT seq, text FROM ledger_entry WHERE job_id = $1 ORDER BY seq DESC LIMIT 1",
    [jobId],
  );
  const { seq, text } = rows[0];
  const kept = await client.query(
    "DELETE FROM ledger_text WHERE job_id = $1 AND seq = $2 RETURNING path, text",
    [jobId, seq],
  );
  const texts = new Map(kept.rows.map((row) => [row.path, row.text]));
  const entry = JSON.parse(text);
  const { note: _note, ...body } = openBody(entry.body, texts);
  const noteSha256 = sha256HexSync(utf8(OLD_NOTE));
  const old = canonicalize({ ...entry, body: { ...body, noteSha256 } });
  await client.query(
    "UPDATE ledger_entry SET text = $3, sha256 = $4 WHERE job_id = $1 AND seq = $2",
    [jobId, seq, old, sha256HexSync(utf8(old))],
  );
  await client.end();
}

/** A concession as it was written before texts were kept apart: the ledger holds the reason. */
async function olderJob(
  service: TestService,
  { siteId, planVersionId }: { siteId: string; planVersionId: string },
) {
  const { firmId, people } = service.firm;
  const [id, concessionId] = [uuidv7(), uuidv7()];
  const at = "2026-11-25T09:00:00.000Z";
  const facts = { itemId: "holes", subject: "", reason: "Kept from before" };
  const grantedById = people.manager.id;
  return inFirm(service.db, firmId, async (tx) => {
    const job = { firmId, id, siteId, planVersionId, kind: "install", title: "Older job" };
    await tx.job.create({ data: { ...job, reference: `J-OLD-${id.slice(-4).toUpperCase()}` } });
    const concession = { firmId, id: concessionId, jobId: id, ...facts, grantedById };
    await tx.concession.create({ data: concession });
    const body = canonicalize({ concessionId, expiresOn: null, grantedById, ...facts });
    const [entry] = await tx.$queryRaw<{ seq: number }[]>`
      SELECT seq FROM ledger_append(
        ${firmId}::uuid, ${id}::uuid, 'concession.granted', ${at}, ${body})`;
    return { olderJobId: id, olderSeq: entry?.seq ?? 0 };
  });
}
