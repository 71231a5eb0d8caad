// What both papers say: how the job ended, cautions, pictures, and how to check the record.

import type { PhotoRecord } from "../../domain/evidence/bag-record.ts";
import type { Block, Paper, PaperPicture } from "./block.ts";
import { factsOf, isClosed, type Words } from "./words.ts";

export const heading = (level: 1 | 2 | 3, text: string): Block => ({
  kind: "heading",
  level,
  text,
});
export const text = (said: string): Block => ({ kind: "text", text: said });

export function paperOf(words: Words, title: string, blocks: Block[]): Paper {
  const { source } = words;
  const { firmName, reference } = source.files["job.json"];
  const { mark } = source.branding;
  const alt = words.say("papers.mark", { firm: firmName });
  const head: Block[] = mark ? [{ kind: "mark", picture: { ...mark, alt } }] : [];
  return {
    ...{
      title,
      blocks: [...head, ...blocks],
      language: source.language,
      size: source.size,
      at: source.extent.at,
    },
    ...{ author: firmName, colour: source.branding.colour },
    header: `${firmName} · ${reference}`,
    draft: isClosed(source) ? undefined : words.say("papers.draft"),
    unprintable: words.say("papers.unprintable"),
  };
}

/** How many photos a paper shows; the evidence bag has all of them, whole. */
export const PHOTOS_MOST = 60;

export function standing(words: Words): string {
  const { closeOuts } = words.source.files["close-out.json"];
  const last = closeOuts.at(-1);
  if (!isClosed(words.source) || !last) return words.say("papers.notClosed");
  const values = { at: words.at(last.closedAt), person: words.person(last.closedById) };
  return words.say("papers.closed", values);
}

export function tally(words: Words): string {
  const asked = factsOf(words.source).filter(
    ({ holdPoint, outcome }) => holdPoint && outcome !== "not-applicable",
  );
  const conceded = asked.filter(({ outcome }) => outcome === "conceded").length;
  const met = asked.filter(({ clears }) => clears).length - conceded;
  return words.say("papers.tally", { met, conceded, count: asked.length });
}

/** The firm's name with how it is reached. */
export const firmLines = ({ source }: Words): string =>
  [source.files["job.json"].firmName, ...source.branding.lines].join("\n");

export function addressOf({ source }: Words): string {
  const { addressLine, locality, postcode } = source.files["job.json"];
  return `${addressLine}, ${locality} ${postcode}`;
}

export function emergency(words: Words): Block[] {
  const { phone } = words.source.branding;
  const { firmName } = words.source.files["job.json"];
  return [
    {
      kind: "caution",
      title: words.say("papers.emergency.title"),
      items: [
        words.say("papers.emergency.fire"),
        words.say("papers.emergency.flood"),
        words.say("papers.emergency.damage"),
        words.say("papers.emergency.shock"),
        words.say("papers.emergency.isolate"),
        words.say("papers.emergency.after"),
        ...(phone ? [words.say("papers.emergency.firm", { firm: firmName, phone })] : []),
      ],
    },
    {
      kind: "caution",
      title: words.say("papers.care.title"),
      items: [
        words.say("papers.care.open"),
        words.say("papers.care.clear"),
        words.say("papers.care.work"),
        words.say("papers.care.paper"),
      ],
    },
    text(words.say("papers.prevail")),
  ];
}

export function pictures(words: Words, most = PHOTOS_MOST): Block[] {
  const { files, pictures: copies } = words.source;
  const photos = files["photos.json"];
  const shown = photos.slice(0, most);
  if (photos.length === 0) return [text(words.say("papers.none"))];
  const drawn: PaperPicture[] = [];
  const blocks: Block[] = [text(words.say("papers.photosAre"))];
  const bare: string[] = [];
  for (const photo of shown) {
    const copy = copies.get(photo.sha256);
    const lines = photoLines(words, photo);
    if (copy) drawn.push({ ...copy, alt: lines.slice(0, 2).join(", "), lines });
    else bare.push(lines.join(" · "));
  }
  blocks.push({ kind: "pictures", pictures: drawn });
  if (bare.length > 0) blocks.push({ kind: "list", items: bare });
  const left = photos.length - shown.length;
  if (left > 0) blocks.push(text(words.say("papers.photosLeft", { count: left })));
  return blocks;
}

/** An answer that names the picture says what it is of; else what it was sent for. */
function photoLines(words: Words, photo: PhotoRecord): string[] {
  const answers = words.source.files["answers.json"];
  const answer = answers.findLast((row) => row.photos.includes(photo.sha256));
  const itemId = answer?.itemId ?? photo.itemId;
  const subject = answer?.subject ?? photo.subject ?? "";
  const what = itemId === null ? words.say("job.photos.noItem") : words.about(itemId, subject);
  const who = `${words.person(photo.personId)}, ${words.at(answer?.takenAt ?? photo.receivedAt)}`;
  return [what, who, `SHA-256 ${photo.sha256}`];
}

export function checking(words: Words): Block[] {
  const { extent, checkAddress } = words.source;
  const blocks: Block[] = [
    text(words.say("papers.ledgerIs")),
    {
      kind: "facts",
      rows: [
        [words.say("papers.ledgerEntries"), String(extent.seq)],
        [words.say("papers.ledgerHead"), extent.sha256],
        [words.say("papers.lastChange"), words.at(extent.at)],
      ],
    },
  ];
  if (!checkAddress) return blocks;
  const square: Block = {
    kind: "address-square",
    address: checkAddress,
    alt: words.say("papers.squareAlt", { address: checkAddress }),
    lines: [words.say("papers.squareUse"), checkAddress],
  };
  return [...blocks, square];
}

export function snagBlocks(words: Words): Block[] {
  const items = words.source.files["snags.json"].map(({ title, detail, raisedAt, mendedAt }) => {
    const state = mendedAt
      ? words.say("papers.snagMended", { at: words.at(mendedAt) })
      : words.say("papers.snagOpen", { at: words.at(raisedAt) });
    return [words.kept(title), detail, state].filter(Boolean).join(" · ");
  });
  return items.length > 0 ? [{ kind: "list", items }] : [text(words.say("papers.none"))];
}
