// The commissioning record: everything that was checked on a job, with what, by whom, and what came
// of it, as the record stood after its last change.
import type { MessageKey } from "../../language/catalogue.ts";
import type { Block, Paper } from "./block.ts";
import { attemptTable, stageBlocks, unitTable } from "./checked-tables.ts";
import {
  addressOf,
  checking,
  emergency,
  firmLines,
  heading,
  paperOf,
  pictures,
  snagBlocks,
  standing,
  tally,
  text,
} from "./parts.ts";
import type { PaperSource } from "./record.ts";
import { concessionTable, instrumentTable, peopleTable, signatureTable } from "./record-tables.ts";
import { Words } from "./words.ts";

const RULES = {
  simple: "papers.rule.simple",
  guarded: "papers.rule.guarded",
  "four-way": "papers.rule.fourWay",
} as const satisfies Record<string, MessageKey>;

export function commissioningRecord(source: PaperSource): Paper {
  const words = new Words(source);
  const job = source.files["job.json"];
  const title = words.say("papers.record.title", { job: job.reference });
  const section = (key: MessageKey, ...blocks: Block[]): Block[] => [
    heading(2, words.say(key)),
    ...blocks,
  ];
  return paperOf(words, title, [
    heading(1, title),
    { kind: "facts", rows: jobFacts(words) },
    ...section("papers.units", unitTable(words)),
    ...section("papers.checked", text(tally(words)), ...ruleBlocks(words), ...stageBlocks(words)),
    ...section("papers.earlier", text(words.say("papers.earlierAre")), attemptTable(words)),
    ...section(
      "papers.instruments",
      text(words.say("papers.instrumentsAre")),
      instrumentTable(words),
    ),
    ...section(
      "papers.concessions",
      text(words.say("papers.concessionsAre")),
      concessionTable(words),
    ),
    ...section("papers.snags", ...snagBlocks(words)),
    ...section("papers.signatures", signatureTable(words)),
    ...section("papers.people", peopleTable(words)),
    ...section("papers.closings", ...closingBlocks(words)),
    ...section("papers.photos", ...pictures(words)),
    ...section("papers.cautions", ...emergency(words)),
    ...section("papers.checkIt", ...checking(words)),
  ]);
}

function jobFacts(words: Words): [string, string][] {
  const job = words.source.files["job.json"];
  const plan = words.source.files["plan.json"];
  const version = { code: job.planCode, number: job.planNumber, title: plan.title };
  return [
    [words.say("papers.firm"), firmLines(words)],
    [
      words.say("papers.job"),
      `${job.reference} ${job.title} (${words.say(`job.kind.${job.kind}`)})`,
    ],
    [words.say("papers.site"), `${job.siteReference}, ${addressOf(words)}`],
    [words.say("papers.supply"), job.supply],
    [words.say("papers.standing"), standing(words)],
    [words.say("papers.plan"), words.say("papers.planVersion", version)],
    [words.say("papers.planHash"), job.planSha256],
    [words.say("papers.opened"), words.at(job.openedAt)],
  ];
}

/** The rules under which this job's verdicts were found. */
function ruleBlocks(words: Words): Block[] {
  const plan = words.source.files["plan.json"];
  const own = plan.stages
    .flatMap(({ items }) => items)
    .flatMap((item) => {
      const rule = "decisionRule" in item ? item.decisionRule : undefined;
      return rule === undefined || rule === plan.decisionRule ? [] : [{ item, rule }];
    });
  const others = own.map(({ item, rule }) => `${item.title}: ${words.say(RULES[rule])}`);
  return [
    text(`${words.say(RULES[plan.decisionRule])} ${words.say("papers.uncertaintyIs")}`),
    ...(others.length > 0 ? [{ kind: "list", items: others } as const] : []),
  ];
}

function closingBlocks(words: Words): Block[] {
  const { closeOuts, reopenings } = words.source.files["close-out.json"];
  const acts = [
    ...closeOuts.map((row) => ({
      seq: row.ledgerSeq,
      said: words.say("papers.closedUnder", {
        ...{ at: words.at(row.closedAt), person: words.person(row.closedById) },
        ...{ rules: row.ruleVersion, entry: row.ledgerSeq, head: row.ledgerSha256 },
      }),
    })),
    ...reopenings.map((row) => ({
      seq: row.ledgerSeq,
      said: words.say("papers.reopened", {
        ...{ at: words.at(row.reopenedAt), person: words.person(row.reopenedById) },
        reason: words.kept(row.reason),
      }),
    })),
  ].sort((left, right) => left.seq - right.seq);
  if (acts.length === 0) return [text(words.say("papers.none"))];
  return [{ kind: "list", items: acts.map(({ said }) => said) }];
}
