// The standing as the page shows it: figures as a reader of the language writes them, and first of
// all what needs a hand.
import type { ShownLanguage } from "../../language/languages.ts";
import { dayAndTime } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import { bytesText } from "../job-page/bytes-text.ts";
import { lastingText } from "./lasting-text.ts";
import type { Inside, Known, Standing } from "./standing.ts";
import type { Verdict } from "./verdicts.ts";

const TAGS = {
  good: { tag: "good", sign: "✓" },
  watch: { tag: "warn", sign: "▲" },
  bad: { tag: "bad", sign: "✗" },
} as const;

export function shownStanding(language: ShownLanguage, { known, inside }: Standing, now: Date) {
  return {
    ...{ at: timeText(language, now), isAway: !inside },
    ready: {
      isReady: known.ready.isReady,
      reasons: known.ready.reasons.map(({ check, detail }) => ({
        ...{ name: say(language, `operation.check.${check}`), detail },
      })),
    },
    hands: handsNeeded(language, known, inside),
    versions: shownVersions(language, known, inside),
    connections: known.connections.map((pool) => ({ ...pool, ...shownMark(language, pool) })),
    replica: shownReplica(language, known.replica),
    storage: shownStorage(language, known.storage),
    ...(inside ? { inside: shownInside(language, inside) } : {}),
  };
}

function shownVersions(language: ShownLanguage, known: Known, inside: Inside | undefined) {
  const { service, uptimeS, node } = known.versions;
  const own = [
    { name: "Holdpoint", text: service },
    { name: say(language, "operation.uptime"), text: lastingText(language, uptimeS) },
    { name: "Node.js", text: node },
  ];
  if (!inside) return own;
  const { postgresql, schemaExpected, schemaFound, pending } = inside.versions;
  return [
    ...own,
    { name: "PostgreSQL", text: postgresql },
    { name: say(language, "operation.schemaExpected"), text: schemaExpected ?? "–" },
    { name: say(language, "operation.schemaFound"), text: schemaFound ?? "–" },
    { name: say(language, "operation.pending"), text: pending.join(", ") || "–" },
  ];
}

function shownInside(language: ShownLanguage, { queues, mail, storage }: Inside) {
  return {
    queues: queues.map((queue) => ({
      ...{ ...queue, ...shownMark(language, queue) },
      oldest: queue.waiting > 0 ? lastingText(language, queue.oldestS) : "–",
    })),
    mail: {
      ...{ ...mail, ...shownMark(language, mail) },
      lastSent: mail.lastSentAt ? timeText(language, new Date(mail.lastSentAt)) : "–",
    },
    database: {
      size: bytesText(storage.database.bytes, language),
      tables: storage.database.tables.map(({ name, bytes }) => ({
        ...{ name, size: bytesText(bytes, language) },
      })),
    },
    photos: bytesText(storage.photoBytes, language),
  };
}

function shownStorage(language: ShownLanguage, { hasBucket, disk, backup }: Known["storage"]) {
  const { bytes, freeBytes } = disk;
  const sizes = bytes !== null && freeBytes !== null;
  return {
    hasBucket,
    disk: {
      ...shownMark(language, disk),
      text: sizes
        ? say(language, "operation.free", {
            ...{ free: bytesText(freeBytes, language), whole: bytesText(bytes, language) },
          })
        : "–",
    },
    backup: {
      ...shownMark(language, backup),
      text: backup.lastAt ? timeText(language, new Date(backup.lastAt)) : "–",
    },
  };
}

function shownReplica(language: ShownLanguage, { isSet, isFit }: Known["replica"]) {
  if (!isSet) return undefined;
  return {
    ...TAGS[isFit ? "good" : "watch"],
    text: say(language, isFit ? "operation.replica.fit" : "operation.replica.unfit"),
  };
}

/** Everything that is not well, the worst first, each with its advice and where it stands. */
function handsNeeded(language: ShownLanguage, known: Known, inside: Inside | undefined) {
  const named = (what: string, at: string, { mark, advice }: Verdict) => ({
    ...{ what, at, advice, mark, ...shownMark(language, { mark }) },
  });
  const { disk, backup } = known.storage;
  const all = [
    ...(inside?.queues ?? []).map((queue) => named(queue.name, "queues", queue)),
    ...(inside ? [named(say(language, "operation.mail"), "mail", inside.mail)] : []),
    named(say(language, "operation.disk"), "storage", disk),
    named(say(language, "operation.backup"), "storage", backup),
    ...known.connections.map((pool) => named(pool.name, "connections", pool)),
  ];
  return [
    ...all.filter(({ mark }) => mark === "bad"),
    ...all.filter(({ mark }) => mark === "watch"),
  ];
}

const shownMark = (language: ShownLanguage, { mark }: Pick<Verdict, "mark">) => ({
  ...TAGS[mark],
  markName: say(language, `operation.mark.${mark}`),
});

/** The service belongs to no place, so its times are UTC and say so. */
const timeText = (language: ShownLanguage, at: Date): string =>
  `${dayAndTime(language, at, "UTC")} UTC`;
