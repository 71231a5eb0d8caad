// A network between the tablet and the real service that fails by chance.
import type { Chance } from "../../support/chance.ts";
import type { CookieFetch } from "./cookie-fetch.ts";

const FAULTS = ["offline", "reply lost", "twice", "500", "503", "429", "page"] as const;

export class BadNetwork {
  readonly counts = new Map<string, number>();
  /** From 0, nothing fails, to 1, every request does. */
  badness = 0;
  /** Whether only the sending of operations fails, or everything does. */
  opsOnly = false;
  readonly #through: CookieFetch;
  readonly #chance: Chance;

  constructor(through: CookieFetch, chance: Chance) {
    this.#through = through;
    this.#chance = chance;
  }

  fetch = async (path: string, init: RequestInit): Promise<Response> => {
    const isOps = path === "/api/v1/tablet/ops";
    const fails = (isOps || !this.opsOnly) && this.#chance.share() < this.badness;
    const fault = fails ? this.#chance.pick(FAULTS) : "none";
    const what = `${isOps ? "operations" : "others"}: ${fault}`;
    this.counts.set(what, (this.counts.get(what) ?? 0) + 1);
    switch (fault) {
      case "none":
        return this.#through.fetch(path, init);
      case "offline":
        throw new TypeError("fetch failed");
      case "reply lost":
        await (await this.#through.fetch(path, init)).arrayBuffer();
        throw new TypeError("fetch failed");
      case "twice": {
        const replies = [this.#through.fetch(path, init), this.#through.fetch(path, init)];
        const [first, second] = await Promise.all(replies);
        return (this.#chance.share() < 0.5 ? first : second) as Response;
      }
      case "page": {
        const headers = { "content-type": "text/html" };
        return new Response("<p>Welcome, guest</p>", { headers });
      }
      default: {
        const headers = { "content-type": "text/plain", "retry-after": "2" };
        return new Response("later", { status: Number(fault), headers });
      }
    }
  };
}
