// The tablet's page: who it is, its store, its sending, then the views.
import type { Profile } from "./contract.ts";
import { phrase, speak } from "./language/spoken.ts";
import { openKeeper } from "./store/keeper.ts";
import { recallProfile, rememberProfile } from "./store/profile.ts";
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
  const profile = await whoseTablet(root);
  const store = await openKeeper(profile.firmId, { personId: () => page.profile.personId });
  const isOpen = (jobId: string): boolean => "jobId" in page.route && page.route.jobId === jobId;
  const onPerson = (person: Profile): void => void takeLanguage(page, person);
  const sync = createSync(store, { isOpen, onPerson });
  const page: TabletPage = new TabletPage({
    ...{ keeper: store, sync, profile },
    newVersion: newVersion(registering, () => page.redraw()),
    draw: drawInto(root),
  });
  await recallLook(page);
  await page.start();
  sync.start();
}

/** Before anybody has signed in the page speaks as the browser asks. */
async function whoseTablet(root: HTMLElement): Promise<Profile> {
  const known = recallProfile();
  await speak(known?.language);
  if (known) return known;
  const profile = await firstSignIn(root, signIn);
  await speak(profile.language);
  return profile;
}

/** The person chose another language elsewhere: it holds here from now on, also without signal. */
async function takeLanguage(page: TabletPage, { personId, language }: Profile): Promise<void> {
  const { profile } = page;
  if (language === undefined || personId !== profile.personId || language === profile.language) {
    return;
  }
  page.profile = { ...profile, language };
  rememberProfile(page.profile);
  await speak(language);
  page.redraw();
}

start(root).catch((error: unknown) => {
  root.textContent = error instanceof Error ? error.message : phrase("tablet.notStarted");
});
