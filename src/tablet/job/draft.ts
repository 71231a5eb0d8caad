// What has been typed, ticked and taken for one item and is not kept yet, and the value it makes.
import { parseAnswerValue } from "../../domain/acceptance/answer.ts";
import type { Item } from "../../domain/plan/item.ts";
import { retold } from "../language/spoken.ts";
import { decimalSign } from "../language/written.ts";

/** A photo taken for an answer that is not kept yet. */
export interface DraftPhoto {
  blob: Blob;
  sha256: string;
  mediaType: "image/jpeg" | "image/png" | "image/webp";
}

export interface Draft {
  /** As typed, with ">" or "<" before it where the instrument was beyond its range. */
  number?: string;
  unit?: string;
  count?: string;
  choice?: string;
  text?: string;
  done?: boolean;
  points?: readonly number[];
  /** Fasteners that could not be tightened and are left open. */
  leftOpen?: readonly number[];
  positions?: Readonly<Record<string, string>>;
  name?: string;
  signature?: DraftPhoto;
  note?: string;
  photos?: readonly DraftPhoto[];
}

/** Whether anything is in it that would be missed. */
export const isEmptyDraft = (draft: Draft): boolean =>
  Object.values(draft).every(
    (value) => value === undefined || value === "" || (Array.isArray(value) && value.length === 0),
  );

/** The raw value as it goes to the server; undefined while something of it is missing. */
export function draftValue(item: Item, draft: Draft): object | undefined {
  switch (item.kind) {
    case "confirm":
      return draft.done === undefined ? undefined : { done: draft.done };
    case "measure":
      return isBegun(draft.number)
        ? { number: pointed(draft.number), unit: draft.unit ?? item.unit }
        : undefined;
    case "tighten":
      return tightened(item, draft);
    case "count":
      return draft.count ? { count: Number(draft.count) } : undefined;
    case "choose":
      return draft.choice === undefined ? undefined : { choice: draft.choice };
    case "identify":
      return draft.text?.trim() ? { text: draft.text.trim() } : undefined;
    case "set":
      return setPositions(item.positions, draft);
    case "photo":
      return (draft.photos ?? []).length > 0 ? {} : undefined;
    case "sign":
      return signed(draft);
  }
}

/** A sign alone is no number yet, and nothing to complain of. */
const isBegun = (number: string | undefined): boolean => /\d/.test(number ?? "");

/**
 * On a page whose decimals follow a comma, "1,234" is no thousand: the rules, which have to do with
 * readers of either kind, would ask which is meant.
 */
const pointed = (number = ""): string =>
  decimalSign() === "," && !number.includes(".") ? number.replace(",", ".") : number;

function tightened(item: Extract<Item, { kind: "tighten" }>, draft: Draft): object | undefined {
  const { points = [], leftOpen = [], number, unit } = draft;
  if (!isBegun(number) || points.length + leftOpen.length < item.points) return undefined;
  return { points: [...points], setting: { number: pointed(number), unit: unit ?? item.unit } };
}

function setPositions(
  asked: readonly { switch: string }[],
  { positions = {} }: Draft,
): object | undefined {
  const isWhole = asked.every((entry) => positions[entry.switch]?.trim());
  return isWhole ? { positions: { ...positions } } : undefined;
}

function signed({ name, signature }: Draft): object | undefined {
  if (!name?.trim()) return undefined;
  return signature ? { name: name.trim(), signature: signature.sha256 } : { name: name.trim() };
}

/** Photos that go with the answer: those taken for it, and the picture of a signature. */
export function draftPhotos(item: Item, { photos = [], signature }: Draft): DraftPhoto[] {
  const taken = [...photos];
  if (item.kind === "sign" && signature) taken.push(signature);
  return taken.filter(
    (photo, index) => taken.findIndex(({ sha256 }) => sha256 === photo.sha256) === index,
  );
}

/** Why a whole value cannot be read as the item asks; undefined where it can. */
export function draftProblem(item: Item, value: object): string | undefined {
  const read = parseAnswerValue(item, value);
  return read.ok ? undefined : retold(read.problem);
}
