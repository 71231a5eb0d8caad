// Requirement: a store that the browser cleared is noticed. What browsers clear for want of room
// leaves cookies alone, so the state of the rows is noted there too, and in local storage for
// browsers that forget a page's cookies after a week. Read it as: "this much was kept here once".

export interface RowMark {
  deviceId: string;
  lastSeq: number;
  /** All up to this one are settled. */
  settledSeq: number;
}

export interface MarkerPlace {
  read(): string[];
  write(text: string): void;
}

/** Cookies hold 4 KB; more rows than these never wait at a time. */
const ROWS_MOST = 8;
const COOKIE_LIFE_S = 400 * 24 * 3600;
const COOKIE_PLACE = `Path=/tablet/; Max-Age=${COOKIE_LIFE_S}; SameSite=Strict`;

export const writeMarks = (marks: readonly RowMark[]): string =>
  marks
    .slice(0, ROWS_MOST)
    .map(({ deviceId, lastSeq, settledSeq }) => `${deviceId}.${lastSeq}.${settledSeq}`)
    .join("~");

/** Both places may be behind the store, and each behind the other; the higher number is right. */
export function readMarks(texts: readonly string[]): RowMark[] {
  const marks = new Map<string, RowMark>();
  for (const text of texts.flatMap((part) => part.split("~"))) {
    const [, deviceId, last, settled] =
      /^([0-9a-f-]{36})\.(\d{1,10})\.(\d{1,10})$/.exec(text) ?? [];
    if (deviceId === undefined) continue;
    const before = marks.get(deviceId);
    const lastSeq = Math.max(Number(last), before?.lastSeq ?? 0);
    const settledSeq = Math.max(Number(settled), before?.settledSeq ?? 0);
    marks.set(deviceId, { deviceId, lastSeq, settledSeq });
  }
  return [...marks.values()];
}

/**
 * What another tab noted meanwhile stays: a row that both know is never written as less than what
 * stands there already.
 */
export function notBehind(text: string, standing: readonly string[]): string {
  const there = new Map(readMarks(standing).map((mark) => [mark.deviceId, mark]));
  return writeMarks(
    readMarks([text]).map((mark) => {
      const other = there.get(mark.deviceId);
      if (!other) return mark;
      const lastSeq = Math.max(mark.lastSeq, other.lastSeq);
      return { ...mark, lastSeq, settledSeq: Math.max(mark.settledSeq, other.settledSeq) };
    }),
  );
}

/**
 * Both places make a browser's processes wait for each other, and "kept" does not have to: they are
 * written in the page's next turn, the last text only, and before the page goes.
 */
export function browserMarker(name: string): MarkerPlace {
  let pending: string | undefined;
  const flush = (): void => {
    if (pending !== undefined) writeNow(name, notBehind(pending, standing()));
    pending = undefined;
  };
  const standing = (): string[] =>
    [fromCookie(name), fromLocalStorage(name)].filter((text) => text !== undefined);
  globalThis.window?.addEventListener("pagehide", flush);
  return {
    read: () => {
      flush();
      return standing();
    },
    write: (text) => {
      if (pending === undefined) setTimeout(flush, 0);
      pending = text;
    },
  };
}

function writeNow(name: string, text: string): void {
  const secure = globalThis.location?.protocol === "https:" ? "; Secure" : "";
  if (globalThis.document) {
    // The other way to write a cookie answers later, and not in every browser.
    // biome-ignore lint/suspicious/noDocumentCookie: in place before the page goes
    document.cookie = `${name}=${text}; ${COOKIE_PLACE}${secure}`;
  }
  try {
    globalThis.localStorage?.setItem(name, text);
  } catch {
    // Full, or forbidden by the browser's settings: the cookie says the same.
  }
}

function fromCookie(name: string): string | undefined {
  const pairs = globalThis.document?.cookie.split("; ") ?? [];
  return pairs.find((pair) => pair.startsWith(`${name}=`))?.slice(name.length + 1);
}

function fromLocalStorage(name: string): string | undefined {
  try {
    return globalThis.localStorage?.getItem(name) ?? undefined;
  } catch {
    return undefined;
  }
}
