// How the log is written. It goes to machines and people that need no customer's name and no key,
// so an address is told without what opens something, and an error without the row it met.
import { type DestinationStream, type Logger, type LoggerOptions, pino } from "pino";

/** Addresses that are a secret: whoever has one needs no account. */
const SECRET_PLACES = /^\/(invitation|handover|calendar)\//i;
/** Signed tokens, keys for programs, and whatever else is as long and as random. */
const TOKEN = /[A-Za-z0-9_-]{38,}(\.[A-Za-z0-9_-]+)*/g;
/** A hash of what is kept is no key to it, and names of photos are such. */
const IS_HASH = /^[0-9a-f]{64}$/;
const NAME = /^[A-Za-z][A-Za-z0-9.-]{0,30}$/;
const URL_MOST = 300;
const CAUSES_MOST = 4;

/** The address without the secrets in its path and without any value of its query. */
export function loggedUrl(url: string): string {
  const cut = url.search(/[?#]/);
  const path = cut < 0 ? url : url.slice(0, cut);
  // Twice, as a proxy or a careless client may have escaped it.
  const plain = unescaped(unescaped(path)).replace(/\/{2,}/g, "/");
  const place = SECRET_PLACES.exec(plain)?.[1];
  if (place) return `/${place.toLowerCase()}/…`;
  const shown = path.replace(TOKEN, (text) => (IS_HASH.test(text) ? text : "…"));
  return (shown + (cut < 0 ? "" : loggedQuery(url.slice(cut + 1)))).slice(0, URL_MOST);
}

/** People are looked for by name and address there: which filters were used is enough. */
function loggedQuery(query: string): string {
  const names = query.split("&").map((part) => {
    const [name = "", value] = part.split("=", 2);
    return value !== undefined && NAME.test(name) ? `${name}=…` : "…";
  });
  return `?${names.join("&")}`;
}

function unescaped(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

interface AskedRequest {
  method: string;
  url: string;
  host?: string;
  ip?: string;
}

interface LoggedError {
  type: string;
  message: string;
  stack?: string | undefined;
  code?: string;
  constraint?: string;
  table?: string;
  cause?: LoggedError;
}

/** PostgreSQL tells the whole row in `detail` and `where`, so only what names the place is kept. */
export function loggedError(error: unknown, depth = 0): LoggedError {
  if (!(error instanceof Error)) return { type: typeof error, message: "not an error" };
  const { code, constraint, table, cause } = error as Error & Record<string, unknown>;
  return {
    ...{ type: error.name, message: error.message, stack: error.stack },
    ...(typeof code === "string" ? { code } : {}),
    ...(typeof constraint === "string" ? { constraint } : {}),
    ...(typeof table === "string" ? { table } : {}),
    ...(cause instanceof Error && depth < CAUSES_MOST
      ? { cause: loggedError(cause, depth + 1) }
      : {}),
  };
}

const SERIALIZERS: NonNullable<LoggerOptions["serializers"]> = {
  req: ({ method, url, host, ip }: AskedRequest) => ({ method, url: loggedUrl(url), host, ip }),
  err: (error: unknown) => loggedError(error),
};

export function openLog(level: string, destination?: DestinationStream): Logger {
  const options = { level, serializers: SERIALIZERS };
  return destination ? pino(options, destination) : pino(options);
}
