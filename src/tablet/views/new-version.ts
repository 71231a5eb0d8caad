// A version of the page that was fetched and waits: the person says when, so that no item is taken
// out of his hands.
import type { WorkerRegistration } from "../worker-registration.ts";

export interface NewVersion {
  isReady(): boolean;
  /** Loads the page with it. */
  use(): void;
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
