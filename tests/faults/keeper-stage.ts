// The tablet's own store and sending, its database in memory, before the real service.
import type { TabletOp } from "../../src/features/tablet/schemas.ts";
import type { NewOp } from "../../src/tablet/contract.ts";
import type { TabletStore } from "../../src/tablet/store/sending.ts";
import { PASSWORD, startService, type TestService } from "../support/app.ts";
import type { Chance } from "../support/chance.ts";
import { addPracticeJob, type PracticeJob } from "../support/practice-job.ts";
import { CookieFetch } from "../tablet/support/cookie-fetch.ts";
import { type TestSync, testSync } from "../tablet/support/test-sync.ts";
import { snag, TestTablet } from "../tablet/support/test-tablet.ts";
import { Tally } from "./tally.ts";

export type Fetch = (path: string, init: RequestInit) => Promise<Response>;

export interface KeeperStage {
  service: TestService;
  tally: Tally;
  /** The service's clock stands, so that what lies too far ahead of it is known. */
  now: Date;
  job(): Promise<PracticeJob>;
  /** The installer's tablet, switched off; nobody is signed in. */
  tablet(): { tablet: TestTablet; cookies: CookieFetch };
  stop(): Promise<void>;
}

export async function setKeeperStage(
  environment: Record<string, string> = {},
): Promise<KeeperStage> {
  const now = new Date();
  const service = await startService({ now: () => now, environment });
  const origin = await service.app.listen({ port: 0, host: "127.0.0.1" });
  const tally = await Tally.of(service.ownerUrl);
  const { id } = service.firm.people.installer;
  return {
    service,
    tally,
    now,
    job: () => addPracticeJob(service),
    tablet: () => ({
      tablet: new TestTablet(service.firm.firmId, id),
      cookies: new CookieFetch(origin),
    }),
    stop: async () => {
      await tally.close();
      await service.stop();
    },
  };
}

export async function signInTo({ service }: KeeperStage, sync: TestSync): Promise<void> {
  const outcome = await sync.signIn(service.firm.people.installer.email, PASSWORD);
  if (!outcome.ok) throw new Error(outcome.problem);
  await sync.round();
}

/** A page of the tablet: its store, and what sends for it. */
export async function openPage(
  tablet: TestTablet,
  fetch: Fetch,
): Promise<{ store: TabletStore; sync: TestSync }> {
  const store = await tablet.open();
  return { store, sync: testSync(tablet, store, fetch) };
}

/** Answers and snags by chance, each with words of its own, taken when the tablet says it is. */
export function factOf(
  job: PracticeJob,
  chance: Chance,
  takenAt: string,
  answers = job.answers(),
): NewOp {
  const words = snag(job.jobId);
  if (chance.share() < 0.4) return words;
  const note = (words.payload as { text: string }).text;
  const { id: _id, photos: _photos, ...answer } = chance.pick(answers);
  const payload = { kind: "answer", answer: { ...answer, takenAt, note } } as NewOp["payload"];
  return { ...words, payload };
}

export async function keepSome(
  { store, tablet }: { store: TabletStore; tablet: TestTablet },
  job: PracticeJob,
  chance: Chance,
  many: number,
): Promise<TabletOp[]> {
  const kept: TabletOp[] = [];
  for (let each = 0; each < many; each += 1) {
    const takenAt = new Date(tablet.now()).toISOString();
    kept.push((await store.keep(factOf(job, chance, takenAt))).op);
  }
  return kept;
}
