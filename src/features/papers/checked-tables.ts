// What was checked on a job: its units, every item with what was found, and every earlier attempt.
import type { Fact } from "../../domain/closeout/gate.ts";
import { isMessageKey } from "../../language/say.ts";
import type { Block } from "./block.ts";
import { type Row, tableOf, tableOr } from "./table-block.ts";
import { type AnswerFile, factsOf, keyOf, type Words } from "./words.ts";

export function unitTable(words: Words): Block {
  const rows = words.source.files["units.json"].map((unit) => {
    const kind = `models.kind.${unit.kind}`;
    const levels = unit.firmwareReadings.map(
      ({ level, readAt }) => `${level} (${words.at(readAt)})`,
    );
    return [
      isMessageKey(kind) ? words.say(kind) : unit.kind,
      `${unit.maker} ${unit.modelName} (${unit.modelCode})`,
      unit.serial,
      unit.hardwareRevision ?? "",
      levels.join("\n"),
    ];
  });
  return tableOr(
    words,
    [
      [words.say("papers.unit"), 14],
      [words.say("papers.model"), 30],
      [words.say("papers.serial"), 20],
      [words.say("papers.hardware"), 12],
      [words.say("papers.firmware"), 24],
    ],
    rows,
  );
}

/** What was asked in each stage, and what was found. */
export function stageBlocks(words: Words): Block[] {
  const facts = Map.groupBy(factsOf(words.source), ({ itemId }) => itemId);
  return words.source.files["plan.json"].stages.flatMap((stage): Block[] => [
    { kind: "heading", level: 3, text: stage.title },
    tableOf(
      [
        [words.say("papers.item"), 26],
        [words.say("papers.read"), 17],
        [words.say("papers.needed"), 16],
        [words.say("papers.verdict"), 21],
        [words.say("papers.takenBy"), 20],
      ],
      stage.items.flatMap(({ id }) => (facts.get(id) ?? []).map((fact) => factRow(words, fact))),
    ),
  ]);
}

function factRow(words: Words, fact: Fact): Row {
  const answers = words.answersOf.get(keyOf(fact)) ?? [];
  const last = answers.find(({ id }) => id === fact.answerId) ?? answers.at(-1);
  const marks = [
    fact.safetyCritical && words.say("papers.safetyCritical"),
    fact.holdPoint && !fact.safetyCritical && words.say("papers.holdPoint"),
    answers.length > 1 && words.say("papers.attempts", { count: answers.length }),
  ];
  const verdict = words.mark(fact.outcome);
  return [
    [words.about(fact.itemId, fact.subject), marks.filter(Boolean).join(" · ")].filter(Boolean),
    last ? readLines(words, last) : [],
    last?.verdict.needed ? [last.verdict.needed] : [],
    fact.outcome === "pass" ? [verdict] : [verdict, fact.sentence],
    last ? takenLines(words, last) : [],
  ].map((lines) => lines.join("\n"));
}

function readLines(words: Words, answer: AnswerFile): string[] {
  const { reading } = answer.verdict;
  const lines = [words.value(answer)];
  if (reading?.uncertainty !== undefined) {
    lines.push(`U = ± ${Number(reading.uncertainty.toPrecision(3))} ${reading.unit}`);
  }
  if (answer.photos.length > 0) {
    lines.push(words.say("papers.photoCount", { count: answer.photos.length }));
  }
  if (answer.note !== null) lines.push(words.say("papers.note", { note: words.kept(answer.note) }));
  return lines.filter(Boolean);
}

const takenLines = (words: Words, { personId, takenAt, instrumentId }: AnswerFile): string[] =>
  [words.person(personId), words.at(takenAt), words.instrument(instrumentId)].filter(Boolean);

/** Every answer that a later one took the place of. */
export function attemptTable(words: Words): Block {
  const earlier = [...words.answersOf.values()].flatMap((answers) => answers.slice(0, -1));
  const rows = earlier
    .sort((left, right) => left.receiptOrder - right.receiptOrder)
    .map((answer) =>
      [
        [words.about(answer.itemId, answer.subject)],
        readLines(words, answer),
        [words.mark(answer.verdict.outcome), answer.verdict.sentence],
        takenLines(words, answer),
      ].map((lines) => lines.join("\n")),
    );
  return tableOr(
    words,
    [
      [words.say("papers.item"), 28],
      [words.say("papers.read"), 20],
      [words.say("papers.verdict"), 32],
      [words.say("papers.takenBy"), 20],
    ],
    rows,
  );
}
