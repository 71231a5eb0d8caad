// A plain HTTP client: the walkthrough knows of the service only what any client could.
export interface Reply {
  status: number;
  // biome-ignore lint/suspicious/noExplicitAny: replies are looked at field by field
  body: any;
  headers: Headers;
}

export class Surprise extends Error {}

export interface Caller {
  get(path: string): Promise<Reply>;
  post(path: string, body?: object): Promise<Reply>;
  put(path: string, body: object, headers?: Record<string, string>): Promise<Reply>;
}

export function callerFor(baseUrl: string, token?: string): Caller {
  const call = async (
    method: string,
    path: string,
    body?: object,
    headers: Record<string, string> = {},
  ): Promise<Reply> => {
    const reply = await fetch(new URL(path, baseUrl), {
      method,
      headers: {
        ...(token ? { authorization: `Bearer ${token}` } : {}),
        ...(body ? { "content-type": "application/json" } : {}),
        ...headers,
      },
      ...(body ? { body: JSON.stringify(body) } : {}),
      signal: AbortSignal.timeout(30_000),
    });
    const text = await reply.text();
    return {
      status: reply.status,
      body: text === "" ? undefined : JSON.parse(text),
      headers: reply.headers,
    };
  };
  return {
    get: (path) => call("GET", path),
    post: (path, body) => call("POST", path, body),
    put: (path, body, headers) => call("PUT", path, body, headers),
  };
}

/** The body of a reply that must have this status; anything else is a surprise, told in full. */
export async function expectStatus(wanted: number, what: string, reply: Promise<Reply>) {
  const { status, body } = await reply;
  if (status === wanted) return body;
  throw new Surprise(`${what}: expected ${wanted}, got ${status}: ${JSON.stringify(body)}`);
}

export function expectTrue(fact: boolean, what: string): void {
  if (!fact) throw new Surprise(what);
}
