// What a job was measured with, what was conceded, who signed, and who did what.
import type { Accuracy } from "../../domain/plan/context.ts";
import type { Block } from "./block.ts";
import { tableOr } from "./table-block.ts";
import type { Words } from "./words.ts";

export function instrumentTable(words: Words): Block {
  const rows = words.source.files["instruments.json"].map((instrument) => [
    `${instrument.reference} ${instrument.name}\n${instrument.class}`,
    instrument.serial ?? "",
    accuracyText(words, instrument.accuracy ?? {}),
    instrument.calibrations
      .slice(-CALIBRATIONS_MOST)
      .map(({ on, due, passed, certificate }) => {
        const key = passed ? "papers.calibrated" : "papers.calibrationFailed";
        return words.say(key, { on, due, certificate: certificate ?? "–" });
      })
      .join("\n"),
  ]);
  return tableOr(
    words,
    [
      [words.say("papers.instrument"), 26],
      [words.say("papers.serial"), 16],
      [words.say("papers.accuracy"), 22],
      [words.say("papers.calibrations"), 36],
    ],
    rows,
  );
}

/** The last ones; all of them are in the evidence bag. */
const CALIBRATIONS_MOST = 3;

function accuracyText(words: Words, accuracy: Accuracy): string {
  const { percentOfReading, percentOfRange, percentOfSetting, digits } = accuracy;
  const parts = [
    percentOfReading && words.say("papers.ofReading", { percent: percentOfReading }),
    percentOfRange && words.say("papers.ofRange", { percent: percentOfRange }),
    percentOfSetting && words.say("papers.ofSetting", { percent: percentOfSetting }),
    digits && words.say("papers.digits", { count: digits }),
  ].filter(Boolean);
  return parts.length === 0 ? words.say("papers.notStated") : `± (${parts.join(" + ")})`;
}

export function concessionTable(words: Words): Block {
  const rows = words.source.files["concessions.json"].map((row) => [
    words.about(row.itemId, row.subject),
    words.kept(row.reason),
    `${words.person(row.grantedById)}\n${words.at(row.grantedAt)}`,
    row.revokedAt === null
      ? (row.expiresOn ?? words.say("papers.noExpiry"))
      : words.say("papers.revoked", {
          at: words.at(row.revokedAt),
          person: row.revokedById === null ? "" : words.person(row.revokedById),
        }),
  ]);
  return tableOr(
    words,
    [
      [words.say("papers.item"), 28],
      [words.say("papers.reason"), 36],
      [words.say("papers.grantedBy"), 20],
      [words.say("papers.holdsUntil"), 16],
    ],
    rows,
  );
}

export function signatureTable(words: Words): Block {
  const rows = words.source.files["answers.json"].flatMap((answer) => {
    const item = words.items.get(answer.itemId);
    if (item?.kind !== "sign") return [];
    const whose = item.whose === "customer" ? "papers.customer" : "papers.installer";
    const at = words.at(answer.takenAt);
    return [[item.title, words.say(whose), words.value(answer), at, words.person(answer.personId)]];
  });
  return tableOr(
    words,
    [
      [words.say("papers.item"), 30],
      [words.say("papers.whose"), 14],
      [words.say("papers.signedName"), 22],
      [words.say("papers.when"), 17],
      [words.say("papers.recordedBy"), 17],
    ],
    rows,
  );
}

/** Everybody whose work the record rests on. */
export function peopleTable(words: Words): Block {
  const { files } = words.source;
  const { closeOuts, reopenings } = files["close-out.json"];
  const count = (own: (id: string) => number, key: Parameters<Words["say"]>[0]) => (id: string) =>
    own(id) > 0 ? [words.say(key, { count: own(id) })] : [];
  const acts = [
    count((id) => of(files["answers.json"], "personId", id), "papers.did.answers"),
    count((id) => of(files["photos.json"], "personId", id), "papers.did.photos"),
    count((id) => of(files["concessions.json"], "grantedById", id), "papers.did.conceded"),
    count((id) => of(closeOuts, "closedById", id), "papers.did.closed"),
    count((id) => of(reopenings, "reopenedById", id), "papers.did.reopened"),
  ];
  const rows = files["people.json"].map(({ id, name }) => [
    name,
    acts.flatMap((act) => act(id)).join(", "),
  ]);
  const columns: [string, number][] = [
    [words.say("papers.person"), 35],
    [words.say("papers.did"), 65],
  ];
  return tableOr(words, columns, rows);
}

const of = <K extends string>(rows: readonly Record<K, unknown>[], field: K, id: string): number =>
  rows.filter((row) => row[field] === id).length;
