// What has to be told whatever is on the screen. Each says what happened to the work (never that it
// is lost, unless it is) and the way on.
import { html, nothing, type TemplateResult } from "lit-html";
import { RULE_VERSION } from "../../domain/closeout/gate.ts";
import type { TabletKey } from "../../language/tablet-english.ts";
import type { SyncState } from "../contract.ts";
import { phrase } from "../language/spoken.ts";
import type { TabletPage } from "./page.ts";
import { addressOf } from "./route.ts";

/** All that has to be told now. */
export function bannersPart(page: TabletPage): TemplateResult {
  return html`<div class="banners" role="region" aria-label=${phrase("tablet.notices")}>
    ${noticePart(page)} ${storeParts(page)} ${sendingPart(page)} ${versionPart(page)}
    ${jobParts(page)}
  </div>`;
}

const banner = (
  tone: "bad" | "warn" | "good",
  text: TemplateResult | string,
  action: TemplateResult | typeof nothing = nothing,
): TemplateResult => html`<div class="banner ${tone}"><div>${text}</div>${action}</div>`;

const button = (words: string, act: () => void): TemplateResult =>
  html`<button @click=${act}>${words}</button>`;

const link = (words: string, name: "outbox" | "sign-in"): TemplateResult =>
  html`<a class="button" href=${addressOf({ name })}>${words}</a>`;

const loadAnew = (): TemplateResult => button(phrase("tablet.loadAnew"), () => location.reload());

function noticePart(page: TabletPage): TemplateResult | typeof nothing {
  const { notice } = page;
  if (!notice) return nothing;
  const putAway = (): void => {
    page.notice = undefined;
    page.redraw();
  };
  return banner(notice.tone, notice.sentence, button(phrase("tablet.putAway"), putAway));
}

function storeParts({ health }: TabletPage): TemplateResult[] {
  const told: TemplateResult[] = [];
  if (health.lost > 0) {
    const text = phrase("tablet.lost", { count: health.lost });
    told.push(banner("bad", text, link(phrase("tablet.outbox"), "outbox")));
  }
  if (health.room === "full") {
    told.push(banner("bad", phrase("tablet.full"), link(phrase("tablet.outbox"), "outbox")));
  }
  if (health.room === "low") {
    told.push(banner("warn", phrase("tablet.low")));
  }
  return told;
}

const TOLD: Readonly<Partial<Record<SyncState, TabletKey>>> = {
  "sign-in": "tablet.sessionEnded",
  stranger: "tablet.strangeNetwork",
};

function sendingPart(page: TabletPage): TemplateResult | typeof nothing {
  const { state } = page.parts.sync.status();
  const key = TOLD[state];
  if (key === undefined || page.route.name === "sign-in") return nothing;
  const signIn = (): TemplateResult => link(phrase("tablet.signInAgain"), "sign-in");
  return banner("warn", phrase(key), state === "sign-in" ? signIn() : nothing);
}

function versionPart(page: TabletPage): TemplateResult | typeof nothing {
  const { newVersion, sync } = page.parts;
  const isOutdated = sync.status().state === "outdated";
  if (!newVersion.isReady()) {
    return isOutdated ? banner("warn", phrase("tablet.outdated"), loadAnew()) : nothing;
  }
  return banner(
    isOutdated ? "warn" : "good",
    phrase("tablet.newVersion"),
    button(phrase("tablet.useItNow"), () => newVersion.use()),
  );
}

function jobParts(page: TabletPage): TemplateResult[] {
  if (!("jobId" in page.route)) return [];
  const { jobId } = page.route;
  const held = page.held(jobId);
  if (!held) return [];
  const told: TemplateResult[] = [];
  const { state } = held.packet.job;
  if (state !== "open") {
    told.push(banner("warn", phrase("tablet.jobNotOpen", { state })));
  } else if (!held.visit) {
    told.push(banner("warn", phrase("tablet.visitGone")));
  }
  if (held.packet.ruleVersion !== RULE_VERSION) {
    told.push(banner("warn", phrase("tablet.newerRules"), loadAnew()));
  }
  const changes = page.changesOf(jobId);
  if (changes.length > 0) {
    const text = html`<strong>${phrase("tablet.officeChanged")}</strong>
      <ul>${changes.map((change) => html`<li>${change}</li>`)}</ul>`;
    told.push(
      banner(
        "warn",
        text,
        button(phrase("tablet.takeOver"), () => page.takeOver(jobId)),
      ),
    );
  }
  return told;
}
