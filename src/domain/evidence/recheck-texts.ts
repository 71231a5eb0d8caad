// Requirement: what people wrote lies beside the ledger with its salt, and each text is the one
// that the ledger names by its hash (product rule). One that is not there was erased, and the
// ledger says so: without a record.erased entry after it, it was taken away.
import { type BagFault, fault } from "./bag-fault.ts";
import { parseCanonical } from "./canonical-json.ts";
import type { LedgerFact } from "./recheck-ledger.ts";
import { openBody, saltedPaths, saltedSha256 } from "./salted-texts.ts";

/** One {"entry","path","salt","text"} a line, in canonical JSON, by entry and path. */
export const TEXTS_FILE = "data/ledger/texts.jsonl";

type Line = { entry: number; path: string; salt: string; text: string };

/**
 * The ledger's facts as they were written, as far as the texts are there.
 * @param content of TEXTS_FILE; empty for a bag without it
 */
export function openLedger(
  facts: readonly LedgerFact[],
  content: string,
): { facts: LedgerFact[]; withheld: number; faults: BagFault[] } {
  const read = readLines(content);
  if (!read.ok) return { facts: [...facts], withheld: 0, faults: [read.fault] };
  const texts = new Map(read.lines.map((line) => [placeOf(line), line]));
  const erasedAt = facts.findLast(({ kind }) => kind === "record.erased")?.seq ?? 0;
  const faults: BagFault[] = [];
  let withheld = 0;
  const opened = facts.map((entry) => {
    const own = new Map<string, string>();
    for (const { path, sha256 } of saltedPaths(entry.body)) {
      const place = placeOf({ entry: entry.seq, path });
      const line = texts.get(place);
      texts.delete(place);
      const about = { entry: entry.seq, place: path };
      if (line && saltedSha256(line) !== sha256) {
        faults.push(fault(TEXTS_FILE, "text-differs", about));
      } else if (line) own.set(path, line.text);
      else if (entry.seq > erasedAt) faults.push(fault(TEXTS_FILE, "text-missing", about));
      else withheld += 1;
    }
    return { ...entry, body: openBody(entry.body, own) };
  });
  for (const { entry, path } of texts.values()) {
    faults.push(fault(TEXTS_FILE, "text-surplus", { entry, place: path }));
  }
  return { facts: opened, withheld, faults };
}

const placeOf = ({ entry, path }: Pick<Line, "entry" | "path">): string => `${entry} ${path}`;

function readLines(content: string): { ok: true; lines: Line[] } | { ok: false; fault: BagFault } {
  const refuse = (code: "text-unread" | "text-order", row: number) =>
    ({ ok: false, fault: fault(TEXTS_FILE, code, { row }) }) as const;
  const rows = content.split("\n");
  if (rows.pop() !== "") return refuse("text-unread", rows.length + 1);
  const lines: Line[] = [];
  for (const [index, row] of rows.entries()) {
    const parsed = parseCanonical(row);
    const line = parsed.ok ? (parsed.value as Line) : undefined;
    if (!line || !isLine(line)) return refuse("text-unread", index + 1);
    const before = lines.at(-1);
    if (before && !isAfter(line, before)) return refuse("text-order", index + 1);
    lines.push(line);
  }
  return { ok: true, lines };
}

const isAfter = (line: Line, before: Line): boolean =>
  line.entry > before.entry || (line.entry === before.entry && line.path > before.path);

const SALT = /^[0-9a-f]{32,128}$/;

function isLine(value: unknown): value is Line {
  if (typeof value !== "object" || value === null) return false;
  const { entry, path, salt, text } = value as Record<string, unknown>;
  const isWhole = Object.keys(value).join() === "entry,path,salt,text";
  const isPlaced = Number.isSafeInteger(entry) && typeof path === "string";
  return isWhole && isPlaced && typeof salt === "string" && SALT.test(salt) && isText(text);
}

const isText = (value: unknown): boolean => typeof value === "string" && value.isWellFormed();
