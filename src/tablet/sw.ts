// The page's worker: it hands out the shell, so that the page opens without signal. What is said to
// the service goes past it untouched.
import {
  answerPart,
  dropOlder,
  installShell,
  partOf,
  type Shell,
  type ShellPlace,
} from "./worker/shell-cache.ts";

/** Put in when the page is bundled. */
declare const __SHELL__: string[];
declare const __VERSION__: string;

/** Of the Service Workers standard, what is used here; the DOM's types leave it out. */
interface LateEvent extends Event {
  waitUntil(work: Promise<unknown>): void;
}
interface RequestEvent extends LateEvent {
  request: Request;
  respondWith(response: Promise<Response>): void;
}
interface WorkerScope {
  caches: CacheStorage;
  location: { href: string };
  clients: { claim(): Promise<void> };
  skipWaiting(): Promise<void>;
  addEventListener(type: "install" | "activate", listener: (event: LateEvent) => void): void;
  addEventListener(type: "fetch", listener: (event: RequestEvent) => void): void;
  addEventListener(type: "message", listener: (event: LateEvent & { data: unknown }) => void): void;
}

const worker = globalThis as unknown as WorkerScope;
const shell: Shell = { version: __VERSION__, paths: __SHELL__ };
const place: ShellPlace = {
  caches: worker.caches,
  fetch: (request) => fetch(request),
  base: worker.location.href,
};

worker.addEventListener("install", (event) => event.waitUntil(installShell(shell, place)));

worker.addEventListener("activate", (event) =>
  event.waitUntil(dropOlder(shell, place).then(() => worker.clients.claim())),
);

worker.addEventListener("fetch", (event) => {
  const path = partOf(shell, place, event.request);
  if (path !== undefined) event.respondWith(answerPart(shell, place, path, event.request));
});

// A new version waits until the page says so: a half-typed reading must not vanish under a reload.
worker.addEventListener("message", (event) => {
  if (event.data === "use-new-version") event.waitUntil(worker.skipWaiting());
});
