// A browser's fetch as far as the tablet's page needs it: where it came from, and its cookies.

export class CookieFetch {
  readonly #origin: string;
  readonly #cookies = new Map<string, string>();

  constructor(origin: string) {
    this.#origin = origin;
  }

  fetch = async (path: string, init: RequestInit): Promise<Response> => {
    const headers = new Headers(init.headers);
    // Fetch Metadata (W3C): what browsers say of a request to the page's own address.
    headers.set("sec-fetch-site", "same-origin");
    headers.set("cookie", [...this.#cookies].map((pair) => pair.join("=")).join("; "));
    const reply = await fetch(new URL(path, this.#origin), { ...init, headers });
    for (const line of reply.headers.getSetCookie()) this.#take(line);
    return reply;
  };

  /** Another browser with the same cookies, which go their own way from now on. */
  copy(): CookieFetch {
    const other = new CookieFetch(this.#origin);
    for (const [name, value] of this.#cookies) other.#cookies.set(name, value);
    return other;
  }

  forget(): void {
    this.#cookies.clear();
  }

  #take(line: string): void {
    const [pair = "", ...attributes] = line.split(";");
    const [name = "", value = ""] = pair.split("=");
    const isGone = attributes.some((attribute) =>
      /^ *(?:Max-Age=0|Expires=Thu, 01)/i.test(attribute),
    );
    if (isGone) this.#cookies.delete(name);
    else this.#cookies.set(name, value);
  }
}
