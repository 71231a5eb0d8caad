// The handover pack: what the customer keeps at the units. Emergencies first, then what was
// installed and what was shown of it; the commissioning record has the readings.
import type { MessageKey } from "../../language/catalogue.ts";
import type { Block, Paper } from "./block.ts";
import { unitTable } from "./checked-tables.ts";
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
import { concessionTable, signatureTable } from "./record-tables.ts";
import { factsOf, Words } from "./words.ts";

const PHOTOS_SHOWN = 8;

/** What is not on the record that a bag states: it may be erased without the record. */
export interface Handover {
  customer: string;
  /** Names of the papers filed with the job, such as the maker's instructions. */
  documents: readonly string[];
}

export function handoverPack(source: PaperSource, { customer, documents }: Handover): Paper {
  const words = new Words(source);
  const job = source.files["job.json"];
  const title = words.say("papers.pack.title", { job: job.reference });
  const section = (key: MessageKey, ...blocks: Block[]): Block[] => [
    heading(2, words.say(key)),
    ...blocks,
  ];
  const facts: [string, string][] = [
    [words.say("papers.firm"), firmLines(words)],
    [words.say("papers.pack.for"), customer],
    [words.say("papers.site"), `${job.siteReference}, ${addressOf(words)}`],
    [words.say("papers.job"), `${job.reference} ${job.title}`],
    [words.say("papers.standing"), standing(words)],
  ];
  const filed: Block =
    documents.length > 0
      ? { kind: "list", items: documents }
      : text(words.say("papers.pack.noDocuments"));
  return paperOf(words, title, [
    heading(1, title),
    { kind: "facts", rows: facts },
    ...section("papers.cautions", ...emergency(words)),
    ...section("papers.pack.installed", unitTable(words)),
    ...section("papers.checked", text(tally(words)), stageList(words)),
    text(words.say("papers.pack.readings", { job: job.reference })),
    ...section("papers.concessions", concessionTable(words)),
    ...section("papers.snags", ...snagBlocks(words)),
    ...section("papers.pack.documents", text(words.say("papers.pack.keep")), filed),
    ...section("papers.signatures", signatureTable(words)),
    ...section("papers.photos", ...pictures(words, PHOTOS_SHOWN)),
    ...section("papers.checkIt", ...checking(words)),
  ]);
}

function stageList(words: Words): Block {
  const facts = Map.groupBy(factsOf(words.source), ({ itemId }) => itemId);
  const items = words.source.files["plan.json"].stages.flatMap((stage) => {
    const asked = stage.items
      .flatMap(({ id }) => facts.get(id) ?? [])
      .filter(({ outcome }) => outcome !== "not-applicable");
    if (asked.length === 0) return [];
    const met = asked.filter(({ clears }) => clears).length;
    return words.say("papers.pack.stage", { stage: stage.title, met, count: asked.length });
  });
  return { kind: "list", items };
}
