// Ids that are there, found as a stranger would find them: every list is read, and what stands
// under /sites gives ids for /sites/{id}.
import type { Api, Operation } from "./api-operations.ts";
import { nounBefore } from "./api-operations.ts";

const GUID = /[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}/g;
const ROUNDS = 3;
const A_NOUN_MOST = 3;
/** Files that take long to make and name no ids in JSON. */
const NO_LISTS = /\.pdf$|evidence-bag$/;

export const guidsIn = (text: string): string[] => text.match(GUID) ?? [];

export interface KnownIds {
  /** Values for a parameter of a path: by "noun name", as "sites id". */
  values: Map<string, string[]>;
}

/** `get` answers a path with its text, or nothing where it is refused. */
export async function knownIds(
  { operations }: Api,
  get: (path: string) => Promise<string | undefined>,
): Promise<KnownIds> {
  const values = new Map<string, string[]>();
  const read = new Set<string>();
  const reads = operations.filter(
    ({ method, path }) => method === "get" && path.includes("/api/") && !NO_LISTS.test(path),
  );
  for (let round = 0; round < ROUNDS; round += 1) {
    for (const operation of reads) {
      for (const path of filled(operation, values, A_NOUN_MOST)) {
        if (read.has(path)) continue;
        read.add(path);
        const text = await get(path);
        if (text?.startsWith("{")) collect(JSON.parse(text), path, values);
      }
    }
  }
  return { values };
}

/** The operation's path with what is known put in; none where something is not known. */
export function filled(
  { path, parameters }: Operation,
  values: ReadonlyMap<string, readonly string[]>,
  most: number,
): string[] {
  let paths = [path];
  for (const { name } of parameters.filter((one) => one.in === "path")) {
    const noun = nounBefore(path, name);
    const known = values.get(`${noun} ${name}`) ?? values.get(`${noun} id`) ?? [];
    paths = paths.flatMap((one) => known.slice(0, most).map((id) => one.replace(`{${name}}`, id)));
  }
  return paths;
}

function collect(found: unknown, path: string, values: Map<string, string[]>): void {
  const items = (found as { items?: unknown }).items;
  const noun = path.replace(/\?.*/, "").split("/").at(-1) ?? "";
  for (const item of Array.isArray(items) ? items : []) {
    for (const [name, value] of Object.entries((item ?? {}) as Record<string, unknown>)) {
      if (typeof value !== "string" && typeof value !== "number") continue;
      const key = `${noun} ${name}`;
      const known = values.get(key) ?? [];
      if (!known.includes(String(value))) values.set(key, [...known, String(value)]);
    }
  }
}
