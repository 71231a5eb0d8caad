// A version of the page that was fetched and waits: the person says when, so that no item is taken
// out of his hands.
import type { WorkerRegistration } from "../worker-registration.ts";

export interface NewVersion {
  isReady(): boolean;
  /** Loads the page with it. */
  use(): void;
}

const LOOK_EVERY_MS = 60 * 60_000;
/** Signal that comes and goes need not ask each time. */
const LOOK_AGAIN_MS = 60_000;

/**
 * Asks for a newer version when signal comes back, when the page is looked at again, and once an
 * hour while it is open.
 */
export function lookForVersions(
  registration: Pick<WorkerRegistration, "lookForNewVersion">,
  { page, shown, now }: { page: EventTarget; shown: EventTarget; now(): number },
): () => void {
  let askedAt = Number.NEGATIVE_INFINITY;
  const look = (): void => {
    if (now() - askedAt < LOOK_AGAIN_MS) return;
    askedAt = now();
    void registration.lookForNewVersion();
  };
  page.addEventListener("online", look);
  shown.addEventListener("visibilitychange", look);
  const timer = setInterval(look, LOOK_EVERY_MS);
  return () => {
    page.removeEventListener("online", look);
    shown.removeEventListener("visibilitychange", look);
    clearInterval(timer);
  };
}

/** Tells of a waiting version; `onReady` is called when there is one. */
export function newVersion(
  registering: Promise<WorkerRegistration | undefined>,
  onReady: () => void,
): NewVersion {
  let waiting: WorkerRegistration | undefined;
  void registering.then((registration) =>
    registration?.onNewVersion(() => {
      waiting = registration;
      onReady();
    }),
  );
  const use = async (): Promise<void> => {
    await waiting?.useNewVersion();
    location.reload();
  };
  return { isReady: () => waiting !== undefined, use: () => void use() };
}
