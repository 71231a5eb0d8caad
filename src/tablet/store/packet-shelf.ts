// The packets of the visits on the list, and those still needed after they were taken off it.
import type { Packet, TabletVisit } from "../../features/tablet/schemas.ts";
import type { ListedVisit } from "../contract.ts";
import type { StoreDatabase } from "./layout.ts";
import { headOf } from "./layout-steps.ts";

const DAY = " day";

interface DayNote {
  tag: string | undefined;
  wanted: [jobId: string, version: string][];
  visits?: TabletVisit[];
  /** By job: why its packet was not had. */
  problems?: Record<string, string>;
}

const readDay = async (db: StoreDatabase): Promise<DayNote | undefined> =>
  (await db.get("settings", DAY)) as DayNote | undefined;

export const dayTag = async (db: StoreDatabase): Promise<string | undefined> =>
  (await readDay(db))?.tag;

export async function readVisits(db: StoreDatabase): Promise<ListedVisit[]> {
  const { visits = [], problems = {} } = (await readDay(db)) ?? {};
  return visits.map((visit) => {
    const problem = problems[visit.jobId];
    return problem === undefined ? visit : { ...visit, problem };
  });
}

/** Comes back with whether that was news. */
export async function notePacketProblem(
  db: StoreDatabase,
  jobId: string,
  problem: string,
): Promise<boolean> {
  const tx = db.transaction("settings", "readwrite");
  const day = (await tx.store.get(DAY)) as DayNote | undefined;
  const isNews = day !== undefined && day.problems?.[jobId] !== problem;
  if (isNews) await tx.store.put({ ...day, problems: { ...day.problems, [jobId]: problem } }, DAY);
  await tx.done;
  return isNews;
}

export async function takeDay(
  db: StoreDatabase,
  visits: readonly TabletVisit[],
  tag: string | undefined,
): Promise<void> {
  const tx = db.transaction(["settings", "packetHeads"], "readwrite");
  // A job visited twice shows its next visit: the list is in their order.
  const byJob = new Map([...visits].reverse().map((visit) => [visit.jobId, visit]));
  for await (const cursor of tx.objectStore("packetHeads")) {
    const { visit: _before, ...head } = cursor.value;
    const visit = byJob.get(head.jobId);
    await cursor.update(visit ? { ...head, visit } : head);
  }
  const wanted = visits.map(({ jobId, packetVersion }): [string, string] => [jobId, packetVersion]);
  const before = (await tx.objectStore("settings").get(DAY)) as DayNote | undefined;
  const note: DayNote = { tag, wanted, visits: [...visits], problems: stillAsTold(before, wanted) };
  await tx.objectStore("settings").put(note, DAY);
  await tx.done;
}

/** What was wrong with packets that are still asked for in the same version. */
function stillAsTold(before: DayNote | undefined, wanted: DayNote["wanted"]) {
  const { problems = {} } = before ?? {};
  const versions = new Map(before?.wanted);
  const same = wanted.filter(([jobId, version]) => versions.get(jobId) === version);
  return Object.fromEntries(
    same.flatMap(([jobId]) => (problems[jobId] ? [[jobId, problems[jobId]]] : [])),
  );
}

export async function wantedPackets(db: StoreDatabase) {
  const [day, heads] = await Promise.all([readDay(db), db.getAll("packetHeads")]);
  const held = new Map(heads.map(({ jobId, version }) => [jobId, version]));
  return [...new Map(day?.wanted ?? [])].map(([jobId, wanted]) => ({
    jobId,
    wanted,
    held: held.get(jobId),
  }));
}

export async function takePacket(
  db: StoreDatabase,
  packet: Packet,
  fetchedAt: string,
): Promise<void> {
  const tx = db.transaction(["packets", "packetHeads", "settings"], "readwrite");
  const day = (await tx.objectStore("settings").get(DAY)) as DayNote | undefined;
  const visit = day?.visits?.find(({ jobId }) => jobId === packet.job.id);
  const { [packet.job.id]: solved, ...problems } = day?.problems ?? {};
  if (solved !== undefined) await tx.objectStore("settings").put({ ...day, problems }, DAY);
  await tx.objectStore("packets").put(packet, packet.job.id);
  await tx.objectStore("packetHeads").put(headOf({ packet, fetchedAt, visit }));
  await tx.done;
}

/** The list goes, so that its packets do; the next is asked for anew, whatever its tag. */
export async function dropDay(db: StoreDatabase): Promise<void> {
  const tx = db.transaction(["settings", "packetHeads"], "readwrite");
  const settings = tx.objectStore("settings");
  await settings.delete(DAY);
  for await (const cursor of tx.objectStore("packetHeads")) {
    const { visit: _before, ...head } = cursor.value;
    await cursor.update(head);
  }
  await tx.done;
}

/** Takes away packets off the list, but for those with something unsent or open on the screen. */
export async function dropPackets(
  db: StoreDatabase,
  isOpen: (jobId: string) => boolean,
): Promise<void> {
  const names = ["packets", "packetHeads", "ops", "photos"] as const;
  const tx = db.transaction(names, "readwrite");
  const ops = await tx.objectStore("ops").index("state").getAll("waiting");
  const photos = await tx.objectStore("photos").index("state").getAll("waiting");
  const needed = new Set([...ops.map(({ op }) => op.jobId), ...photos.map(({ jobId }) => jobId)]);
  const [packets, heads] = [tx.objectStore("packets"), tx.objectStore("packetHeads")];
  for (const { jobId, visit } of await heads.getAll()) {
    if (visit || needed.has(jobId) || isOpen(jobId)) continue;
    await packets.delete(jobId);
    await heads.delete(jobId);
  }
  await tx.done;
}
