// Requirement: what was typed is kept as typed and read in one way only; what cannot be read as the
// item asks is refused with a sentence, before anything is stored.

import type { Item, ItemOf } from "../plan/item.ts";
import { pointerOf } from "../plan/problem.ts";
import { type Measured, readMeasured } from "./measured.ts";

export type { Measured } from "./measured.ts";

/** One submitted answer to an item, for one subject of it. */
export interface Answer {
  id: string;
  itemId: string;
  subject: string;
  /** RFC 3339 with offset. */
  takenAt: string;
  personId: string;
  instrumentId?: string;
  photos?: readonly string[];
  note?: string;
  /** Place in the order of receipt: breaks ties of takenAt. */
  order: number;
  value: unknown;
}

export type AnswerValue =
  | { kind: "confirm"; done: boolean }
  | ({ kind: "measure" } & Measured)
  | { kind: "tighten"; points: readonly number[]; setting: Measured }
  | { kind: "count"; count: number }
  | { kind: "choose"; choice: string }
  | { kind: "identify"; text: string }
  | { kind: "set"; positions: Readonly<Record<string, string>> }
  | { kind: "photo" }
  | { kind: "sign"; name: string; signature?: string };

export type AnswerReading =
  | { ok: true; value: AnswerValue }
  | { ok: false /** JSON pointer from the value. */; pointer: string; problem: string };

const FIELDS: Readonly<Record<Item["kind"], readonly string[]>> = {
  confirm: ["done"],
  measure: ["number", "unit"],
  tighten: ["points", "setting"],
  count: ["count"],
  choose: ["choice"],
  identify: ["text"],
  set: ["positions"],
  photo: [],
  sign: ["name", "signature"],
};
const COUNT_MOST = 100_000;

/** Reads a raw value, e.g. parsed JSON, as the item asks for it. */
export function parseAnswerValue(item: Item, raw: unknown): AnswerReading {
  if (typeof raw !== "object" || raw === null || Array.isArray(raw)) {
    return refuse("", "The value must be an object.");
  }
  const fields = FIELDS[item.kind];
  for (const name in raw) {
    if (fields.includes(name)) continue;
    const taken = fields.join(" and ") || "no value";
    return refuse(pointerOf([name]), `"${item.title}" takes ${taken}.`);
  }
  return readValue(item, raw as Record<string, unknown>);
}

function readValue(item: Item, value: Record<string, unknown>): AnswerReading {
  switch (item.kind) {
    case "confirm":
      return typeof value.done === "boolean"
        ? { ok: true, value: { kind: "confirm", done: value.done } }
        : refuse("/done", "Say whether it is done: true or false.");
    case "measure":
      return readMeasure(item.unit, value);
    case "tighten":
      return readTighten(item, value);
    case "count":
      return readCount(value.count);
    case "choose":
      return typeof value.choice === "string" && item.options.includes(value.choice)
        ? { ok: true, value: { kind: "choose", choice: value.choice } }
        : refuse("/choice", `Choose one of: ${item.options.join(", ")}.`);
    case "identify":
      return typeof value.text === "string" && value.text.trim() !== "" && value.text.length <= 200
        ? { ok: true, value: { kind: "identify", text: value.text.trim() } }
        : refuse("/text", "Type or scan what stands on the unit, at most 200 characters.");
    case "set":
      return readPositions(item, value.positions);
    case "photo":
      return { ok: true, value: { kind: "photo" } };
    case "sign":
      return readSignature(value);
  }
}

const refuse = (pointer: string, problem: string): AnswerReading => ({
  ok: false,
  pointer,
  problem,
});

function readMeasure(itemUnit: string, value: Record<string, unknown>): AnswerReading {
  const reading = readMeasured(itemUnit, value.number, value.unit);
  return reading.ok ? { ok: true, value: { ...reading.measured, kind: "measure" } } : reading;
}

function readCount(count: unknown): AnswerReading {
  return typeof count === "number" && Number.isInteger(count) && count >= 0 && count <= COUNT_MOST
    ? { ok: true, value: { kind: "count", count } }
    : refuse("/count", `A count is a whole number from 0 to ${COUNT_MOST}.`);
}

function readTighten(item: ItemOf<"tighten">, value: Record<string, unknown>): AnswerReading {
  const points = Array.isArray(value.points) ? (value.points as unknown[]) : undefined;
  if (!points) return refuse("/points", `List the fasteners tightened, from 1 to ${item.points}.`);
  const seen = new Set<unknown>();
  for (const [index, point] of points.entries()) {
    if (!Number.isInteger(point) || Number(point) < 1 || Number(point) > item.points) {
      const shown = typeof point === "number" ? point : "of that name";
      const problem = `There is no fastener ${shown}; they run from 1 to ${item.points}.`;
      return refuse(`/points/${index}`, problem);
    }
    if (seen.has(point)) return refuse(`/points/${index}`, `Fastener ${point} is listed twice.`);
    seen.add(point);
  }
  const { setting } = value;
  if (typeof setting !== "object" || setting === null) {
    return refuse("/setting", `Give what the wrench was set to, in ${item.unit}.`);
  }
  const { number, unit } = setting as Record<string, unknown>;
  const reading = readMeasured(item.unit, number, unit);
  if (!reading.ok) return refuse(`/setting${reading.pointer}`, reading.problem);
  const tightened = { points: points as number[], setting: reading.measured };
  return { ok: true, value: { kind: "tighten", ...tightened } };
}

function readPositions(item: ItemOf<"set">, raw: unknown): AnswerReading {
  if (typeof raw !== "object" || raw === null || Array.isArray(raw)) {
    return refuse("/positions", "Give the position of each switch by its name.");
  }
  const known = item.positions.map((entry) => entry.switch);
  const positions: Record<string, string> = Object.create(null);
  for (const [name, position] of Object.entries(raw)) {
    const pointer = pointerOf(["positions", name]);
    if (!known.includes(name)) {
      const there = known.join(", ");
      const problem = `There is no switch "${name.slice(0, 60)}" here; there are ${there}.`;
      return refuse(pointer, problem);
    }
    if (typeof position !== "string" || position.length > 60) {
      return refuse(pointer, "A position is a text of at most 60 characters.");
    }
    positions[name] = position.trim();
  }
  return { ok: true, value: { kind: "set", positions } };
}

function readSignature({ name, signature }: Record<string, unknown>): AnswerReading {
  if (typeof name !== "string" || name.trim() === "" || name.length > 120) {
    return refuse("/name", "Write the name of who signs, at most 120 characters.");
  }
  if (signature === undefined) return { ok: true, value: { kind: "sign", name: name.trim() } };
  if (typeof signature !== "string" || !/^[0-9a-f]{64}$/.test(signature)) {
    return refuse("/signature", "The signature is the SHA-256 of its picture.");
  }
  return { ok: true, value: { kind: "sign", name: name.trim(), signature } };
}
