// What the office changed in a job while it was open on this tablet, in words, so that nobody's
// list changes under his thumb. Answers are no change: they come and go with the work.
import type { Packet } from "../../features/tablet/schemas.ts";
import { phrase } from "../language/spoken.ts";
import { packetFacts } from "./packet-facts.ts";

/** What differs between the packet shown and the latest; empty when nothing that matters. */
export function packetChanges(shown: Packet, latest: Packet): string[] {
  if (shown.version === latest.version) return [];
  return [
    ...(shown.job.state === latest.job.state ? [] : [jobWords(latest)]),
    ...planChange(shown, latest),
    ...unitChanges(shown, latest),
    ...concessionChanges(shown, latest),
    ...(same(places(shown), places(latest)) ? [] : [phrase("tabletChange.site")]),
    ...(same(shown.visits, latest.visits) ? [] : [phrase("tabletChange.visits")]),
    ...(same(shown.instruments, latest.instruments) ? [] : [phrase("tabletChange.instruments")]),
    ...newMessages(shown, latest),
  ];
}

const jobWords = ({ job }: Packet): string => phrase("tabletChange.job", { state: job.state });

const WORDS_MOST = 200;

/** Of the office: what another tablet wrote is read with the rest. */
function newMessages(shown: Packet, latest: Packet): string[] {
  const known = new Set((shown.messages ?? []).map(({ id }) => id));
  return (latest.messages ?? [])
    .filter(({ id, fromTablet }) => !fromTablet && !known.has(id))
    .map(({ personName, text }) => {
      const words = text.length > WORDS_MOST ? `${text.slice(0, WORDS_MOST)} …` : text;
      return phrase("tabletChange.message", { name: personName, words });
    });
}

const same = (left: unknown, right: unknown): boolean =>
  JSON.stringify(left) === JSON.stringify(right);

const places = ({ site, job }: Packet) => [site, job.title, job.reference];

function planChange(shown: Packet, latest: Packet): string[] {
  if (shown.plan.sha256 === latest.plan.sha256) return [];
  const { code, number } = latest.plan;
  return [phrase("tabletChange.plan", { code, number })];
}

function unitChanges(shown: Packet, latest: Packet): string[] {
  if (same(shown.units, latest.units)) return [];
  const before = packetFacts(shown).units;
  const after = packetFacts(latest).units;
  const ids = (units: typeof before) => new Set(units.map(({ id }) => id));
  const gone = before.filter(({ id }) => !ids(after).has(id));
  const come = after.filter(({ id }) => !ids(before).has(id));
  const told = [
    ...come.map(({ serial }) => phrase("tabletChange.unitCame", { serial })),
    ...gone.map(({ serial }) => phrase("tabletChange.unitWent", { serial })),
  ];
  return told.length > 0 ? told : [phrase("tabletChange.units")];
}

function concessionChanges(shown: Packet, latest: Packet): string[] {
  if (same(shown.concessions, latest.concessions)) return [];
  const titleOf = (itemId: string) =>
    packetFacts(latest).plan.byId.get(itemId)?.item.title ?? itemId;
  const known = new Set(packetFacts(shown).concessions.map(({ id }) => id));
  const granted = packetFacts(latest).concessions.filter(({ id }) => !known.has(id));
  const told = granted.map(({ itemId }) =>
    phrase("tabletChange.conceded", { title: titleOf(itemId) }),
  );
  return told.length > 0 ? told : [phrase("tabletChange.concession")];
}
