// What is kept on this tablet and how far it has got, in plain words, and the last resorts.
import { html, nothing, type TemplateResult } from "lit-html";
import type { KeptOp, OpState } from "../contract.ts";
import { clockOf, dayOf } from "../device/local-time.ts";
import { saveFile } from "../device/save-file.ts";
import { packetFacts } from "../job/packet-facts.ts";
import type { View } from "./frame.ts";
import { shapeOf, type Tone } from "./outcome.ts";
import type { TabletPage } from "./page.ts";
import { addressOf } from "./route.ts";
import { countWords, sizeWords } from "./sending-words.ts";

const SHOWN_MOST = 200;

/** The outbox. */
export function outboxView(page: TabletPage): View {
  const status = page.parts.sync.status();
  const latestFirst = page.ops.toReversed();
  const { photosWaiting, held, refused } = page.counts;
  const office = held + refused;
  const send = (): void => void page.parts.sync.round();
  return {
    back: { to: { name: "day" }, words: "Visits" },
    body: html`<h1 tabindex="-1">Outbox</h1>
      <p class="do">${countWords(page)}</p>
      <p>${status.sentence}
        ${status.lastContactAt ? `Last contact ${clockHere(status.lastContactAt)}.` : nothing}</p>
      ${office > 0 ? html`<p class="note warn">${office} with the office: see below.</p>` : nothing}
      ${photosWaiting > 0 ? photosPart(page) : nothing}
      ${filePart(page)}
      <h2>Entries, latest first</h2>
      <ul class="rows">${latestFirst.slice(0, SHOWN_MOST).map((kept) => row(page, kept))}</ul>
      ${
        latestFirst.length > SHOWN_MOST
          ? html`<p class="soft">And ${latestFirst.length - SHOWN_MOST} before these.</p>`
          : nothing
      }
`,
    actions: html`<a class="button" href=${addressOf({ name: "sign-in" })}>Sign in again</a>
      <button class="main" @click=${send} ?disabled=${status.state === "sending"}>
        Send now
      </button>`,
  };
}

const zoneHere = Intl.DateTimeFormat().resolvedOptions().timeZone;
const clockHere = (instant: string): string =>
  `${dayOf(instant, zoneHere)}, ${clockOf(instant, zoneHere)}`;

const WORDS: Readonly<Record<OpState, { tone: Tone; words: string }>> = {
  waiting: { tone: "open", words: "on this tablet, waiting to be sent" },
  stored: { tone: "good", words: "on the server" },
  held: { tone: "warn", words: "on the server, held for the office" },
  refused: { tone: "bad", words: "refused by the server, set aside for the office" },
};

function row(page: TabletPage, kept: KeptOp): TemplateResult {
  const { tone, words } = WORDS[kept.state];
  const reference = page.held(kept.op.jobId)?.packet.job.reference;
  return html`<li class="row">${shapeOf(tone)}
    <span><strong>${titleOf(page, kept)}</strong>
      <span>${words}</span>
      ${kept.result?.sentence ? html`<span>${kept.result.sentence}</span>` : nothing}
      <span class="soft">${reference ? `${reference}, ` : ""}${clockHere(kept.keptAt)}, no.
        ${kept.op.deviceSeq}</span></span>
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
      return `Time of stage "${stage?.title ?? payload.stageId}"`;
    }
    case "snag":
      return `Snag: ${payload.text}`;
    case "message":
      return `Message: ${payload.text}`;
    case "close-out":
      return "Asked to close the job";
  }
}

function photosPart({ photos }: TabletPage): TemplateResult {
  const waiting = photos.filter(({ state }) => state !== "sent");
  return html`<h2>Photos on the way</h2>
    <ul>${waiting.map(({ bytes, sentBytes, state, problem }) => {
      const share = Math.floor((100 * sentBytes) / Math.max(1, bytes));
      const words = state === "refused" ? `refused: ${problem}` : `${share} % sent`;
      return html`<li>${sizeWords(bytes)}, ${words}</li>`;
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
      page.tell(`${count} ${count === 1 ? "entry was" : "entries were"} new and taken in.`, "good");
    } catch (error) {
      page.tell(error instanceof Error ? error.message : "The file could not be read.", "bad");
    }
  };
  return html`<details>
    <summary>If sending is not possible</summary>
    <p>Save everything not sent to a file, and give the file to the office.</p>
    <p class="row-of-buttons">
      <button @click=${() => void save()}>Save the outbox to a file</button>
      <label class="button camera">Restore from a file
        <input type="file" @change=${(event: Event) => void restore(event)} /></label>
    </p>
  </details>`;
}
