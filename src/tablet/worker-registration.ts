// Registers the page's worker and tells when a newer version of the page is ready to be used.

export interface WorkerRegistration {
  /** Called when a newer version is whole and waits; at once where it does already. */
  onNewVersion(listener: () => void): () => void;
  /** Takes the newer version into use; comes back when the page may be loaded again. */
  useNewVersion(): Promise<void>;
  /** Asks the server for a newer version; without signal nothing happens. */
  lookForNewVersion(): Promise<void>;
}

/** undefined where the browser has or allows no workers: the page then needs signal to open. */
export async function registerWorker(
  container: ServiceWorkerContainer | undefined = globalThis.navigator?.serviceWorker,
): Promise<WorkerRegistration | undefined> {
  if (!container) return undefined;
  try {
    const options = { scope: "/tablet/", updateViaCache: "none" } as const;
    return watch(await container.register("/tablet/sw.js", options), container);
  } catch {
    return undefined;
  }
}

function watch(
  registration: ServiceWorkerRegistration,
  container: ServiceWorkerContainer,
): WorkerRegistration {
  const listeners = new Set<() => void>();
  // The first worker of all is not a newer version.
  const isReady = (): boolean => registration.waiting !== null && container.controller !== null;
  registration.addEventListener("updatefound", () => {
    const { installing } = registration;
    installing?.addEventListener("statechange", () => {
      if (installing.state !== "installed" || !isReady()) return;
      for (const listener of [...listeners]) listener();
    });
  });
  return {
    onNewVersion: (listener) => {
      listeners.add(listener);
      if (isReady()) listener();
      return () => listeners.delete(listener);
    },
    useNewVersion: () => useNewVersion(registration, container),
    lookForNewVersion: async () => {
      await registration.update().catch(() => undefined);
    },
  };
}

function useNewVersion(
  registration: ServiceWorkerRegistration,
  container: ServiceWorkerContainer,
): Promise<void> {
  const { waiting } = registration;
  if (!waiting) return Promise.resolve();
  return new Promise((resolve) => {
    container.addEventListener("controllerchange", () => resolve(), { once: true });
    waiting.postMessage("use-new-version");
  });
}
