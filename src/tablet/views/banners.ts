// What has to be told whatever is on the screen. Each says what happened to the work (never that it
// is lost, unless it is) and the way on.
import { html, nothing, type TemplateResult } from "lit-html";
import { RULE_VERSION } from "../../domain/closeout/gate.ts";
import type { SyncState } from "../contract.ts";
import type { TabletPage } from "./page.ts";
import { addressOf } from "./route.ts";

/** All that has to be told now. */
export function bannersPart(page: TabletPage): TemplateResult {
  return html`<div class="banners" role="region" aria-label="Notices">
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

function noticePart(page: TabletPage): TemplateResult | typeof nothing {
  const { notice } = page;
  if (!notice) return nothing;
  const putAway = (): void => {
    page.notice = undefined;
    page.redraw();
  };
  return banner(notice.tone, notice.sentence, button("Put away", putAway));
}

function storeParts({ health }: TabletPage): TemplateResult[] {
  const told: TemplateResult[] = [];
  if (health.lost > 0) {
    const what = health.lost === 1 ? "1 entry" : `${health.lost} entries`;
    const text = `The browser cleared this tablet's store: ${what} not sent before are gone from
      it. If you saved the outbox to a file, restore it.`;
    told.push(banner("bad", text, link("Outbox", "outbox")));
  }
  if (health.room === "full") {
    const text = "The tablet is full and takes no more entries. Send what waits, or make room.";
    told.push(banner("bad", text, link("Outbox", "outbox")));
  }
  if (health.room === "low") {
    told.push(banner("warn", "The tablet has little room left. Send what waits, or make room."));
  }
  return told;
}

const TOLD: Readonly<Partial<Record<SyncState, string>>> = {
  "sign-in": "The session has ended. Keep working: everything is kept here and sent afterwards.",
  stranger: "This network asks for something first. Open its page, or use another network.",
};

function sendingPart(page: TabletPage): TemplateResult | typeof nothing {
  const { state } = page.parts.sync.status();
  const text = TOLD[state];
  if (text === undefined || page.route.name === "sign-in") return nothing;
  return banner("warn", text, state === "sign-in" ? link("Sign in again", "sign-in") : nothing);
}

function versionPart(page: TabletPage): TemplateResult | typeof nothing {
  const { newVersion, sync } = page.parts;
  const isOutdated = sync.status().state === "outdated";
  if (!newVersion.isReady()) {
    const text = "The service is newer than this page, which goes on keeping. Load the page anew.";
    return isOutdated
      ? banner(
          "warn",
          text,
          button("Load anew", () => location.reload()),
        )
      : nothing;
  }
  return banner(
    isOutdated ? "warn" : "good",
    "A new version of this page is ready. What is kept stays.",
    button("Use it now", () => newVersion.use()),
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
    const kept = "What is kept here is still sent, and the office sees it.";
    told.push(banner("warn", `This job is ${state}. ${kept}`));
  } else if (!held.visit) {
    const kept = "What is kept here is still sent.";
    told.push(banner("warn", `This visit is no longer on your list. ${kept}`));
  }
  if (held.packet.ruleVersion !== RULE_VERSION) {
    const text = "The server judges by newer rules than this page. Load the page anew soon.";
    told.push(
      banner(
        "warn",
        text,
        button("Load anew", () => location.reload()),
      ),
    );
  }
  const changes = page.changesOf(jobId);
  if (changes.length > 0) {
    const text = html`<strong>The office changed this job.</strong>
      <ul>${changes.map((change) => html`<li>${change}</li>`)}</ul>`;
    told.push(
      banner(
        "warn",
        text,
        button("Take over", () => page.takeOver(jobId)),
      ),
    );
  }
  return told;
}
