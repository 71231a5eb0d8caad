// Today's and tomorrow's visits as the last list gave them, also those that are not on the tablet
// yet, and what else is on it.
import { html, nothing, type TemplateResult } from "lit-html";
import type { TabletVisit } from "../../features/tablet/schemas.ts";
import type { HeldPacket, ListedVisit } from "../contract.ts";
import { phrase } from "../language/spoken.ts";
import { clockOf, dayOf } from "../language/written.ts";
import type { View } from "./frame.ts";
import type { TabletPage } from "./page.ts";
import { railPart } from "./rail.ts";
import { addressOf } from "./route.ts";

interface Listed {
  visit: TabletVisit;
  /** Absent while it is not on the tablet. */
  held?: HeldPacket;
  problem?: string | undefined;
}

/** The day: what is planned, and what else is on the tablet. */
export function dayView(page: TabletPage): View {
  const listed = listedOf(page);
  const others = page.packets.filter(({ visit }) => visit === undefined);
  const days = [...new Set(listed.map(dayOfVisit))];
  const body = html`<h1 tabindex="-1">${phrase("tablet.visits")}</h1>
    <p class="soft">${phrase("tabletVisit.signedInAs", { name: page.profile.name })}</p>
    ${page.isRead && listed.length + others.length === 0 ? emptyPart(page) : nothing}
    ${days.map(
      (day) => html`<h2>${day}</h2>
        <ul class="cards">
          ${listed.filter((one) => dayOfVisit(one) === day).map((one) => listedCard(page, one))}
        </ul>`,
    )}
    ${
      others.length > 0
        ? html`<h2>${phrase("tabletVisit.alsoHere")}</h2>
            <ul class="cards">${others.map((held) => card(page, held))}</ul>`
        : nothing
    }`;
  const fetchNow = (): void => void page.parts.sync.round();
  const isAsking = page.parts.sync.status().state === "sending";
  return {
    body,
    actions: html`<button class="main" @click=${fetchNow} ?disabled=${isAsking}>
      ${phrase(isAsking ? "tabletVisit.asking" : "tabletVisit.fetch")}
    </button>`,
  };
}

/** Visits with their packets, then those without, by when they start. */
function listedOf({ packets, visits }: TabletPage): Listed[] {
  const problems = new Map(visits.map(({ jobId, problem }) => [jobId, problem]));
  const here = packets.flatMap((held) =>
    held.visit ? [{ held, visit: held.visit, problem: problems.get(held.visit.jobId) }] : [],
  );
  const jobIds = new Set(packets.map(({ packet }) => packet.job.id));
  const missing = visits
    .filter(({ jobId }) => !jobIds.has(jobId))
    .map((visit) => ({ visit, problem: visit.problem }));
  const startOf = ({ visit }: Listed): number => Date.parse(visit.startsAt);
  return [...here, ...missing].sort((a, b) => startOf(a) - startOf(b));
}

const dayOfVisit = ({ visit }: Listed): string => dayOf(visit.startsAt, visit.timeZone);

const timesOf = ({ startsAt, endsAt, timeZone }: TabletVisit): string =>
  phrase("tabletVisit.times", {
    from: clockOf(startsAt, timeZone),
    to: clockOf(endsAt, timeZone),
  });

function emptyPart(page: TabletPage): TemplateResult {
  const { sentence } = page.parts.sync.status();
  return html`<div class="card">
    <p>${phrase("tabletVisit.none")}</p>
    <p class="soft">${phrase("tabletVisit.noneNote", { sentence })}</p>
  </div>`;
}

const listedCard = (page: TabletPage, { held, visit, problem }: Listed): TemplateResult =>
  held ? card(page, held, problem) : missingCard(visit, problem);

function missingCard(visit: TabletVisit, problem: string | undefined): TemplateResult {
  const { title, customerName, place, reference } = visit;
  return html`<li class="card">
    <p class="spread"><strong>${timesOf(visit)}</strong>
      <span class="tag">${phrase("tabletVisit.notHere")}</span></p>
    <h3>${title}</h3>
    <p>${customerName}, ${place}</p>
    ${notHerePart(problem)}
    <p class="soft">${reference}.</p>
  </li>`;
}

/** Why a visit of the list cannot be opened, and what becomes of it. */
export const notHerePart = (problem: ListedVisit["problem"]): TemplateResult =>
  problem === undefined
    ? html`<p class="note warn">${phrase("tabletVisit.notDownloaded")}</p>`
    : html`<p class="note bad">${phrase("tabletVisit.downloadFailed", { problem })}</p>`;

function card(
  page: TabletPage,
  { packet, visit, fetchedAt }: HeldPacket,
  problem?: string,
): TemplateResult {
  const job = page.job(packet.job.id);
  const left = job?.stages.reduce((sum, stage) => sum + stage.left, 0) ?? 0;
  const { site } = packet;
  const asOf = {
    reference: packet.job.reference,
    time: clockOf(fetchedAt, site.timeZone),
    day: dayOf(fetchedAt, site.timeZone),
  };
  const state =
    packet.job.state === "open"
      ? phrase("tabletVisit.left", { count: left })
      : phrase("tabletVisit.jobState", { state: packet.job.state });
  return html`<li class="card">
    <p class="spread"><strong>${visit ? timesOf(visit) : phrase("tabletVisit.notYours")}</strong>
      <span class="tag">${state}</span></p>
    <h3>
      <a class="cover" href=${addressOf({ name: "next", jobId: packet.job.id })}
        >${packet.job.title}</a>
    </h3>
    <p>${site.customerName}, ${site.addressLine}, ${site.locality}</p>
    ${job ? railPart(job.stages) : nothing}
    ${
      problem
        ? html`<p class="note warn">${phrase("tabletVisit.notUpToDate", { problem })}</p>`
        : nothing
    }
    <p class="soft">${phrase("tabletVisit.asOf", asOf)}</p>
  </li>`;
}
