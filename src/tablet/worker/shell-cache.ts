// Requirement: the page opens without signal, whole and of one version. A version is taken in as a
// whole or not at all, an older one is dropped only when the newer is whole, and nothing that is
// not the service's gets in: a hotel's sign-on page answers 200 to every address.

const PREFIX = "holdpoint-shell-";

export interface Shell {
  version: string;
  /** Addresses of everything the page needs, "/tablet/" itself among them. */
  paths: readonly string[];
}

export interface ShellPlace {
  caches: Pick<CacheStorage, "open" | "delete" | "keys">;
  fetch(request: Request): Promise<Response>;
  /** The worker's own address, to which the paths are relative. */
  base: string;
}

export const SHELL_PAGE = "/tablet/";

/** By ending; the page itself has none. */
const MEDIA_TYPES: Readonly<Record<string, string>> = {
  "": "text/html",
  js: "text/javascript",
  css: "text/css",
  wasm: "application/wasm",
  webmanifest: "application/manifest+json",
  svg: "image/svg+xml",
  png: "image/png",
};

/** Rejects, with nothing left behind, unless every part came and is what it should be. */
export async function installShell(shell: Shell, place: ShellPlace): Promise<void> {
  const name = PREFIX + shell.version;
  try {
    const cache = await place.caches.open(name);
    await Promise.all(
      shell.paths.map(async (path) => {
        // Past the browser's own cache, which may hold a part of another version.
        const request = new Request(new URL(path, place.base), { cache: "reload" });
        const response = await place.fetch(request);
        await requirePart(shell, path, response);
        await cache.put(new URL(path, place.base).href, response);
      }),
    );
  } catch (error) {
    await place.caches.delete(name);
    throw error;
  }
}

async function requirePart(shell: Shell, path: string, response: Response): Promise<void> {
  const mediaType = MEDIA_TYPES[/\.([a-z]+)$/.exec(path)?.[1] ?? ""];
  const isSame = response.headers.get("content-type")?.split(";")[0]?.trim() === mediaType;
  if (response.status !== 200 || response.redirected || !isSame) {
    throw new Error(`${path} is not to be had`);
  }
  if (path !== SHELL_PAGE) return;
  const html = await response.clone().text();
  const entry = shell.paths.find((part) => /\/tablet-[^/]+\.js$/.test(part));
  // Also when the service was changed while the parts were coming in.
  if (entry === undefined || !html.includes(entry)) {
    throw new Error("the page does not belong to this version");
  }
}

/** Drops other versions, if this one is whole. */
export async function dropOlder(shell: Shell, place: ShellPlace): Promise<void> {
  const own = PREFIX + shell.version;
  if (!(await isWhole(shell, place))) return;
  const names = await place.caches.keys();
  const older = names.filter((name) => name.startsWith(PREFIX) && name !== own);
  await Promise.all(older.map((name) => place.caches.delete(name)));
}

async function isWhole(shell: Shell, place: ShellPlace): Promise<boolean> {
  const cache = await place.caches.open(PREFIX + shell.version);
  const held = new Set((await cache.keys()).map(({ url }) => url));
  return shell.paths.every((path) => held.has(new URL(path, place.base).href));
}

/** What the page may have from here; undefined for everything that goes to the network. */
export function partOf(shell: Shell, place: ShellPlace, request: Request): string | undefined {
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== new URL(place.base).origin) return undefined;
  if (request.mode === "navigate") return url.pathname === SHELL_PAGE ? SHELL_PAGE : undefined;
  return shell.paths.includes(url.pathname) ? url.pathname : undefined;
}

/** From the cache; where the browser cleared that, from the network as at first. */
export async function answerPart(
  shell: Shell,
  place: ShellPlace,
  path: string,
  request: Request,
): Promise<Response> {
  const cache = await place.caches.open(PREFIX + shell.version);
  const held = await cache.match(new URL(path, place.base).href, { ignoreVary: true });
  return held ?? place.fetch(request);
}
