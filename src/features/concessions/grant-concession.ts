// A concession releases something that does not conform (ISO 9000): granted by a manager who did
// not take the reading, with a reason, for one item and subject; never for what is safety-critical.
import type { FirmTransaction } from "../../db/scope.ts";
import { localDay } from "../../domain/dates/zone-time.ts";
import { subjectsOf } from "../../domain/plan/subjects.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import { evaluateJob } from "../close-out/evaluate.ts";
import { readJob } from "../close-out/store.ts";
import { toContext } from "../job-record/context.ts";
import { appendToLedger } from "../ledger/store.ts";
import {
  addConcession,
  CONCESSIONS_MOST,
  type ConcessionGrant,
  countConcessions,
  findConcession,
  revokeConcession,
  tookTheReading,
} from "./store.ts";

export async function grantConcession(tx: FirmTransaction, grant: ConcessionGrant, now: Date) {
  await refuseUnfit(tx, grant, now);
  const row = await addConcession(tx, grant, now);
  await appendToLedger(tx, grant.jobId, {
    kind: "concession.granted",
    at: now,
    body: {
      concessionId: row.id,
      expiresOn: grant.expiresOn ?? null,
      grantedById: grant.grantedById,
      itemId: grant.itemId,
      reason: grant.reason,
      subject: grant.subject,
    },
  });
  return row;
}

async function refuseUnfit(tx: FirmTransaction, grant: ConcessionGrant, now: Date): Promise<void> {
  const evaluated = await evaluateJob(tx, grant.jobId, now, { lock: true });
  if (!evaluated) throw notFound("job");
  const { record, plan } = evaluated;
  if (record.job.state !== "open") {
    throw new Problem("job-not-open", `${record.job.reference} is ${record.job.state}.`);
  }
  const compiled = plan.byId.get(grant.itemId);
  if (!compiled)
    throw invalid("/body/itemId", `The plan of this job has no item "${grant.itemId}".`);
  if (!subjectsOf(compiled.item, toContext(record, now)).some(({ key }) => key === grant.subject)) {
    throw invalid("/body/subject", `"${compiled.item.title}" is not asked for "${grant.subject}".`);
  }
  if (compiled.item.safetyCritical) {
    throw new Problem(
      "conflict",
      `"${compiled.item.title}" is safety-critical: it cannot be conceded. It must be met.`,
    );
  }
  if (
    grant.expiresOn !== undefined &&
    grant.expiresOn < localDay(now.toISOString(), record.job.timeZone)
  ) {
    throw invalid("/body/expiresOn", "is over already; name a day from today on");
  }
  if (await tookTheReading(tx, grant.jobId, grant, grant.grantedById)) {
    throw new Problem(
      "conflict",
      "You took this reading, so you cannot grant its concession; another manager can.",
    );
  }
  if ((await countConcessions(tx, grant.jobId)) >= CONCESSIONS_MOST) {
    throw new Problem("conflict", `A job takes at most ${CONCESSIONS_MOST} concessions.`);
  }
}

export async function revoke(
  tx: FirmTransaction,
  jobId: string,
  id: string,
  personId: string,
  now: Date,
) {
  const known = await findConcession(tx, id);
  if (!known || known.jobId !== jobId) throw notFound("concession");
  const job = await readJob(tx, jobId);
  if (job?.state !== "open")
    throw new Problem("job-not-open", "Only an open job's concession is revoked.");
  const row = await revokeConcession(tx, id, personId, now);
  if (!row) throw new Problem("conflict", "This concession was revoked before.");
  const body = { concessionId: id, revokedById: personId };
  await appendToLedger(tx, jobId, { kind: "concession.revoked", at: now, body });
  return row;
}
