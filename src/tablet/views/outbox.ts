// What is kept on this tablet and how far it has got, in plain words, and the last resorts.
import { html, nothing, type TemplateResult } from "lit-html";
import type { KeptOp, OpState } from "../contract.ts";
import { saveFile } from "../device/save-file.ts";
import { packetFacts } from "../job/packet-facts.ts";
import { phrase, retold } from "../language/spoken.ts";
import { clockOf, dayOf, shareOf, sizeOf } from "../language/written.ts";
import type { View } from "./frame.ts";
import { shapeOf, type Tone } from "./outcome.ts";
import type { TabletPage } from "./page.ts";
import { addressOf } from "./route.ts";
import { countWords } from "./sending-words.ts";

const SHOWN_MOST = 200;

/** The outbox. */
export function outboxView(page: TabletPage): View {
  const status = page.parts.sync.status();
  const contactAt = status.lastContactAt;
  const latestFirst = page.ops.toReversed();
  const { photosWaiting, held, refused } = page.counts;
  const more = { count: latestFirst.length - SHOWN_MOST };
  const office = held + refused;
  const send = (): void => void page.parts.sync.round();
  return {
    back: { to: { name: "day" }, words: phrase("tablet.visits") },
    body: html`<h1 tabindex="-1">${phrase("tablet.outbox")}</h1>
      <p class="do">${countWords(page)}</p>
      <p>${status.sentence}
        ${
          contactAt ? phrase("tabletOutbox.lastContact", { when: clockHere(contactAt) }) : nothing
        }</p>
      ${
        office > 0
          ? html`<p class="note warn">${phrase("tabletOutbox.withOffice", { count: office })}</p>`
          : nothing
      }
      ${photosWaiting > 0 ? photosPart(page) : nothing}
      ${filePart(page)}
      <h2>${phrase("tabletOutbox.entries")}</h2>
      <ul class="rows">${latestFirst.slice(0, SHOWN_MOST).map((kept) => row(page, kept))}</ul>
      ${
        latestFirst.length > SHOWN_MOST
          ? html`<p class="soft">${phrase("tabletOutbox.more", more)}</p>`
          : nothing
      }
`,
    actions: html`<a class="button" href=${addressOf({ name: "sign-in" })}
        >${phrase("tablet.signInAgain")}</a>
      <button class="main" @click=${send} ?disabled=${status.state === "sending"}>
        ${phrase("tabletOutbox.sendNow")}
      </button>`,
  };
}

const zoneHere = Intl.DateTimeFormat().resolvedOptions().timeZone;
const clockHere = (instant: string): string =>
  `${dayOf(instant, zoneHere)}, ${clockOf(instant, zoneHere)}`;

const TONES: Readonly<Record<OpState, Tone>> = {
  ...{ waiting: "open", stored: "good", held: "warn", refused: "bad" },
};

function row(page: TabletPage, kept: KeptOp): TemplateResult {
  const job = page.held(kept.op.jobId)?.packet.job.reference;
  const at = { when: clockHere(kept.keptAt), number: kept.op.deviceSeq };
  return html`<li class="row">${shapeOf(TONES[kept.state])}
    <span><strong>${titleOf(page, kept)}</strong>
      <span>${phrase(`tabletOutbox.state.${kept.state}`)}</span>
      ${kept.result?.sentence ? html`<span>${retold(kept.result.sentence)}</span>` : nothing}
      <span class="soft">${
        job ? phrase("tabletOutbox.placeOfJob", { job, ...at }) : phrase("tabletOutbox.place", at)
      }</span></span>
  </li>`;
}

function titleOf(page: TabletPage, { op }: KeptOp): string {
  const { payload } = op;
  const held = page.held(op.jobId);
  const plan = held && packetFacts(held.packet).plan;
  switch (payload.kind) {
    case "answer":
      return plan?.byId.get(payload.answer.itemId)?.item.title ?? payload.answer.itemId;
    case "stage-time": {
      const stage = plan?.plan.stages.find(({ id }) => id === payload.stageId);
      return phrase("tabletOutbox.stageTime", { stage: stage?.title ?? payload.stageId });
    }
    case "snag":
      return phrase("tabletOutbox.snag", { text: payload.text });
    case "message":
      return phrase("tabletOutbox.message", { text: payload.text });
    case "close-out":
      return phrase("tabletOutbox.closeOut");
  }
}

function photosPart({ photos }: TabletPage): TemplateResult {
  const waiting = photos.filter(({ state }) => state !== "sent");
  return html`<h2>${phrase("tabletOutbox.photos")}</h2>
    <ul>${waiting.map(({ bytes, sentBytes, state, problem }) => {
      const size = sizeOf(bytes);
      const words =
        state === "refused"
          ? phrase("tabletOutbox.photoRefused", { size, problem: problem ?? "" })
          : phrase("tabletOutbox.photoSent", { size, share: shareOf(sentBytes, bytes) });
      return html`<li>${words}</li>`;
    })}</ul>`;
}

function filePart(page: TabletPage): TemplateResult {
  const { keeper } = page.parts;
  const save = async (): Promise<void> => {
    saveFile(await keeper.outboxFile(), `outbox-${new Date().toISOString().slice(0, 10)}.jsonl`);
  };
  const restore = async (event: Event): Promise<void> => {
    const input = event.target as HTMLInputElement;
    const file = input.files?.[0];
    input.value = "";
    if (!file) return;
    try {
      const count = await keeper.restore(file);
      page.tell(phrase("tabletOutbox.restored", { count }), "good");
    } catch (error) {
      page.tell(error instanceof Error ? error.message : phrase("tabletOutbox.unreadable"), "bad");
    }
  };
  return html`<details>
    <summary>${phrase("tabletOutbox.lastResort")}</summary>
    <p>${phrase("tabletOutbox.lastResortNote")}</p>
    <p class="row-of-buttons">
      <button @click=${() => void save()}>${phrase("tabletOutbox.save")}</button>
      <label class="button camera">${phrase("tabletOutbox.restore")}
        <input type="file" @change=${(event: Event) => void restore(event)} /></label>
    </p>
  </details>`;
}
