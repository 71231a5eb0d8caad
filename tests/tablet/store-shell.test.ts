// The page's shell in the worker's cache: whole and of one version, or not there.
import { beforeEach, describe, expect, test } from "vitest";
import {
  answerPart,
  dropOlder,
  installShell,
  partOf,
  type Shell,
  type ShellPlace,
} from "../../src/tablet/worker/shell-cache.ts";

const BASE = "https://holdpoint.example/tablet/sw.js";
const JS = "/tablet/assets/tablet-AB12.js";
const CSS = "/tablet/assets/style-CD34.css";
const shell: Shell = { version: "v2", paths: ["/tablet/", JS, CSS] };

let caches: CacheMemory;
let network: Map<string, () => Response>;
let place: ShellPlace;
beforeEach(() => {
  caches = new CacheMemory();
  network = new Map([
    ["/tablet/", () => part("text/html; charset=utf-8", `<script src="${JS}"></script>`)],
    [JS, () => part("text/javascript; charset=utf-8", "start()")],
    [CSS, () => part("text/css; charset=utf-8", "body{}")],
  ]);
  place = { caches: caches as never, fetch: async ({ url }) => answer(url), base: BASE };
});

const part = (type: string, body: string): Response =>
  new Response(body, { headers: { "content-type": type } });
const answer = (url: string): Response =>
  network.get(new URL(url).pathname)?.() ?? new Response(null, { status: 404 });

/** Cache Storage (Service Workers, W3C) as far as the worker uses it. */
class CacheMemory {
  readonly named = new Map<string, Map<string, Response>>();

  async open(name: string) {
    const held = this.named.get(name) ?? new Map<string, Response>();
    this.named.set(name, held);
    return {
      put: async (url: string, response: Response) => void held.set(url, response),
      match: async (url: string) => held.get(url)?.clone(),
      keys: async () => [...held.keys()].map((url) => ({ url })),
    };
  }
  delete = async (name: string): Promise<boolean> => this.named.delete(name);
  keys = async (): Promise<string[]> => [...this.named.keys()];
}

describe("installing", () => {
  test("takes in every part", async () => {
    await installShell(shell, place);
    const held = caches.named.get("holdpoint-shell-v2");
    expect([...(held?.keys() ?? [])].map((url) => new URL(url).pathname).sort()).toEqual(
      [...shell.paths].sort(),
    );
  });

  const page = (): Response => part("text/html", "<p>Welcome, guest</p>");
  test.each<[string, string, () => Response]>([
    ["a part is missing", CSS, () => new Response(null, { status: 404 })],
    ["a sign-on page comes instead of the script", JS, page],
    ["a sign-on page comes instead of the page", "/tablet/", page],
    ["the page is of another version", "/tablet/", () => part("text/html", "tablet-ZZ99.js")],
    ["the connection breaks", CSS, () => Response.error()],
  ])("leaves nothing behind when %s", async (_what, path, reply) => {
    network.set(path, reply);
    await expect(installShell(shell, place)).rejects.toThrow(/./);
    expect(await caches.keys()).toEqual([]);
  });
});

describe("the older version", () => {
  test("goes when the newer is whole, and other pages' caches stay", async () => {
    for (const name of ["holdpoint-shell-v1", "pictures"]) await caches.open(name);
    await installShell(shell, place);
    await dropOlder(shell, place);
    expect(await caches.keys()).toEqual(["pictures", "holdpoint-shell-v2"]);
  });

  test("stays when the newer is not", async () => {
    await caches.open("holdpoint-shell-v1");
    await installShell({ ...shell, paths: shell.paths.slice(0, 2) }, place);
    await dropOlder(shell, place);
    expect(await caches.keys()).toContain("holdpoint-shell-v1");
  });
});

describe("a request", () => {
  const request = (path: string, more: Partial<Request> = {}): Request =>
    ({ url: `https://holdpoint.example${path}`, method: "GET", mode: "cors", ...more }) as Request;

  test.each([
    ["/tablet/", { mode: "navigate" }, "/tablet/"],
    ["/tablet/?from=home", { mode: "navigate" }, "/tablet/"],
    ["/today", { mode: "navigate" }, undefined],
    [JS, {}, JS],
    ["/tablet/assets/other.js", {}, undefined],
    ["/tablet/sw.js", {}, undefined],
    ["/api/v1/tablet/day", {}, undefined],
    ["/api/v1/tablet/ops", { method: "POST" }, undefined],
    [JS, { method: "HEAD" }, undefined],
  ] as const)("for %s %j is answered from %s", (path, more, expected) => {
    expect(partOf(shell, place, request(path, more))).toBe(expected);
  });

  test("to another address is not touched", () => {
    const url = `https://elsewhere.example${JS}`;
    expect(partOf(shell, place, request(JS, { url }))).toBeUndefined();
  });

  test("is answered without a network, and from it where the cache was cleared", async () => {
    await installShell(shell, place);
    network.clear();
    const held = await answerPart(shell, place, JS, request(JS));
    expect(await held.text()).toBe("start()");
    await caches.delete("holdpoint-shell-v2");
    network.set(JS, () => part("text/javascript", "start(2)"));
    const fetched = await answerPart(shell, place, JS, request(JS));
    expect(await fetched.text()).toBe("start(2)");
  });
});
