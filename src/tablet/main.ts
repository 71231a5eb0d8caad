// The tablet's page: who it is, its store, its sending, then the views.
import type { Profile } from "./contract.ts";
import { openKeeper } from "./store/keeper.ts";
import { recallProfile } from "./store/profile.ts";
import { signIn } from "./sync/session.ts";
import { createSync } from "./sync/sync.ts";
import { recallLook } from "./views/about.ts";
import { drawInto } from "./views/draw.ts";
import { lookForVersions, newVersion } from "./views/new-version.ts";
import { TabletPage } from "./views/page.ts";
import { firstSignIn } from "./views/sign-in.ts";
import { registerWorker } from "./worker-registration.ts";

const root = document.getElementById("app");
if (!root) throw new Error("The shell has no place for the page.");

async function start(root: HTMLElement): Promise<void> {
  const registering = registerWorker();
  void registering.then((registration) => {
    const watched = { page: window, shown: document, now: () => performance.now() };
    if (registration) lookForVersions(registration, watched);
  });
  const profile: Profile = recallProfile() ?? (await firstSignIn(root, signIn));
  const store = await openKeeper(profile.firmId, { personId: () => page.profile.personId });
  const isOpen = (jobId: string): boolean => "jobId" in page.route && page.route.jobId === jobId;
  const sync = createSync(store, { isOpen });
  const page: TabletPage = new TabletPage({
    ...{ keeper: store, sync, profile },
    newVersion: newVersion(registering, () => page.redraw()),
    draw: drawInto(root),
  });
  await recallLook(page);
  await page.start();
  sync.start();
}

start(root).catch((error: unknown) => {
  root.textContent = error instanceof Error ? error.message : "The page could not start.";
});
