// A page that only registers the worker, for tests to drive from outside.
import { registerWorker } from "../../../src/tablet/worker-registration.ts";

const registered = registerWorker().then((registration) => {
  let ready = false;
  registration?.onNewVersion(() => {
    ready = true;
  });
  return { isReady: () => ready, ...registration };
});
Object.assign(window, { registered });
