// A group of fasteners: the wrench's setting, then each fastener ticked by itself in its turn. How
// many there are is never taken as one tick.
import { html, nothing, type TemplateResult } from "lit-html";
import { unsafeHTML } from "lit-html/directives/unsafe-html.js";
import { crossOrder } from "../../../domain/mechanical/cross-order.ts";
import { drawTightening } from "../../../domain/mechanical/draw-tightening.ts";
import { TIGHTENING_CAUTION } from "../../../domain/mechanical/tightening-order.ts";
import type { ItemOf } from "../../../domain/plan/item.ts";
import type { ItemState, JobState } from "../../job/job-state.ts";
import { phrase, retold } from "../../language/spoken.ts";
import type { TabletPage } from "../page.ts";
import { measurePart } from "./number.ts";

/** Setting and ticks. */
export function tightenPart(
  page: TabletPage,
  job: JobState,
  state: ItemState,
  item: ItemOf<"tighten">,
): TemplateResult {
  return html`${measurePart(page, job, state, phrase("tabletInput.wrench"), item.unit)}
    ${ticksPart(page, item)}`;
}

function ticksPart(page: TabletPage, item: ItemOf<"tighten">): TemplateResult {
  const { points = [], leftOpen = [] } = page.desk.work?.draft ?? {};
  const { order } = crossOrder(item.points);
  const next = order.find((point) => !points.includes(point) && !leftOpen.includes(point));
  const undo = (): void =>
    page.desk.put({
      points: points.slice(0, -1),
      ...(points.length === 0 ? { leftOpen: leftOpen.slice(0, -1) } : {}),
    });
  const leave = (point: number): void => page.desk.put({ leftOpen: [...leftOpen, point] });
  return html`<div class="fasteners" role="group" aria-label=${phrase("tabletInput.fasteners")}>
    <p><strong
        >${phrase("tabletInput.tightened", { count: points.length, total: item.points })}</strong>
      ${next === undefined ? "" : phrase("tabletInput.nextFastener", { number: next })}</p>
    <div class="fastener-keys">
      ${order.map((point, index) => fastenerKey(page, { point, turn: index + 1, next }))}
    </div>
    <p class="row-of-buttons">
      ${
        points.length + leftOpen.length > 0
          ? html`<button @click=${undo}>${phrase("tabletInput.undo")}</button>`
          : nothing
      }
      ${
        next === undefined
          ? nothing
          : html`<button @click=${() => leave(next)}>
              ${phrase("tabletInput.cannotTighten", { number: next })}
            </button>`
      }
    </p>
    ${item.points > 2 ? pictureOf(item) : nothing}
  </div>`;
}

interface Fastener {
  point: number;
  turn: number;
  /** The one whose turn it is. */
  next: number | undefined;
}

function fastenerKey(page: TabletPage, { point, turn, next }: Fastener): TemplateResult {
  const { points = [], leftOpen = [] } = page.desk.work?.draft ?? {};
  const isDone = points.includes(point);
  const state = isDone ? "done" : leftOpen.includes(point) ? "left" : "open";
  const tick = (): void => {
    if (point !== next) {
      page.say(
        next ? phrase("tabletInput.isNext", { number: next }) : phrase("tabletInput.allTicked"),
      );
      return;
    }
    page.desk.put({ points: [...points, point] });
    page.say(phrase("tabletInput.fastenerTightened", { number: point }));
    page.focus(".fastener.next");
  };
  return html`<button
    class="fastener ${point === next ? "next" : ""} ${isDone ? "done" : ""}"
    aria-label=${phrase("tabletInput.fastener", { number: point, turn, state })}
    aria-pressed=${isDone}
    aria-disabled=${point !== next} @click=${tick}>${isDone ? "✓" : ""} ${point}</button>`;
}

const POINTS_DRAWN_MOST = 64;

/** The plan says how many there are, not where: a circle shows the order and nothing else. */
function pictureOf(item: ItemOf<"tighten">): TemplateResult | typeof nothing {
  const torqueNm = nominalOf(item);
  if (item.points > POINTS_DRAWN_MOST || torqueNm === undefined) {
    return html`<p class="soft">${retold(TIGHTENING_CAUTION)}</p>`;
  }
  const drawing = drawTightening(
    {
      ...{ id: "group", name: item.title, count: item.points, thread: "fasteners", torqueNm },
      pattern: { kind: "bolt-circle", diameterMm: 100, firstAngleDeg: 0 },
      torqueSource: "the plan",
      stages: [{ percent: 100 }],
      checkRound: false,
    },
    item.id,
  );
  return html`<details><summary>${phrase("tabletInput.orderPicture")}</summary>
    <p>${phrase("tabletInput.orderPictureNote")}</p>
    <div
      class="drawing wide" tabindex="0" role="group"
      aria-label=${phrase("tabletInput.orderPicture")}>
      ${unsafeHTML(drawing)}</div></details>`;
}

/** A torque to write beside the picture, where the plan gives one as a number in N·m. */
function nominalOf({ limit, unit }: ItemOf<"tighten">): number | undefined {
  const nominal = "nominal" in limit ? limit.nominal : undefined;
  return unit === "N·m" && typeof nominal === "number" ? nominal : undefined;
}
