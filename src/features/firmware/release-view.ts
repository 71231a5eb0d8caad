// Releases and the targets of their models, as the page of releases shows them.
import type { ShownLanguage } from "../../language/languages.ts";
import { plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import { retell } from "../../language/sentences/retell.ts";
import type { ListedRelease } from "./release-sorted-store.ts";
import type { rollOut } from "./roll-out.ts";
import type { TARGET_STATES } from "./schemas.ts";

export function targetRow(
  { target, progress }: Awaited<ReturnType<typeof rollOut>>[number],
  language: ShownLanguage,
) {
  const state = target.state as (typeof TARGET_STATES)[number];
  return {
    ...{ id: target.id, version: target.version, level: target.release.level, state },
    where: target.ring?.name ?? target.region ?? say(language, "releases.everywhere"),
    isRing: target.ringId !== null,
    stateName: say(language, `releases.state.${state}`),
    tag: state === "held" ? "bad" : state === "waiting" ? "plain" : "good",
    due: plainDay(language, target.dueOn.toISOString().slice(0, 10)),
    told: target.heldReason ?? (progress && retell(language, progress.sentence)),
  };
}

export const releaseRow = (release: ListedRelease, language: ShownLanguage) => ({
  ...release,
  severity: say(language, `fleet.severity.${release.severity}`),
  released: plainDay(language, release.releasedOn),
  withdrawn: release.withdrawnOn ? plainDay(language, release.withdrawnOn) : undefined,
  revisions: release.hardwareRevisions.join(", "),
});
