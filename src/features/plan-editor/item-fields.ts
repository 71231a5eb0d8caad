// An item of a plan as the fields of a form, and back. What the form has no field for stays as it
// was; what is left empty is left out of the item.
import type { DraftItem } from "../../domain/plan/edit.ts";
import { boundText, linesOf, pairsOf, readBound, wholeNumber } from "./bound-text.ts";
import { type Fields, limitFields, readLimit } from "./limit-fields.ts";
import { readRepeat, repeatFields } from "./repeat-fields.ts";
import { readSequence, sequenceTexts } from "./sequence-texts.ts";

const textOf = (value: unknown): string =>
  typeof value === "string" || typeof value === "number" ? String(value) : "";
const listOf = (value: unknown): string => (Array.isArray(value) ? value.join("\n") : "");
const tick = (value: unknown): string => (value === true ? "true" : "");
const partOf = (item: DraftItem, name: string): Record<string, unknown> =>
  (typeof item[name] === "object" && item[name] !== null ? item[name] : {}) as Record<
    string,
    unknown
  >;

export function itemFields(item: DraftItem): Fields {
  const evidence = partOf(item, "evidence");
  return {
    ...{ kind: item.kind, id: item.id, title: item.title, do: textOf(item.do) },
    ...{ why: textOf(item.why), toClear: textOf(item.toClear), cautions: listOf(item.cautions) },
    ...{ holdPoint: tick(item.holdPoint), safetyCritical: tick(item.safetyCritical) },
    ...{ appliesWhen: textOf(item.appliesWhen), after: listOf(item.after) },
    ...{ evidencePhotos: textOf(evidence.photos), evidenceNote: tick(evidence.note) },
    ...{ instrument: textOf(partOf(item, "instrument").class) },
    ...{ decisionRule: textOf(item.decisionRule), unit: textOf(item.unit) },
    ...{ points: textOf(item.points), photos: textOf(item.photos), whose: textOf(item.whose) },
    ...{ what: textOf(item.what), options: listOf(item.options) },
    positions: positionLines(item.positions),
    ...repeatFields(item.repeat),
    ...sequenceTexts(item),
    ...limitFields(item.limit),
  };
}

/** @param before the item as it was, whose other members are kept */
export function readItemFields(fields: Fields, before: DraftItem): DraftItem {
  const photos = wholeNumber(fields.evidencePhotos ?? "");
  const evidence = compact({ photos, note: fields.evidenceNote === "true" || undefined });
  const instrument = text(fields.instrument);
  const item = {
    ...before,
    id: text(fields.id) ?? before.id,
    title: text(fields.title) ?? "",
    do: text(fields.do) ?? "",
    why: text(fields.why),
    cautions: list(fields.cautions),
    toClear: text(fields.toClear),
    holdPoint: fields.holdPoint === "true",
    safetyCritical: fields.safetyCritical === "true" || undefined,
    repeat: readRepeat(fields),
    appliesWhen: text(fields.appliesWhen),
    after: list(fields.after),
    evidence: Object.keys(evidence).length > 0 ? evidence : undefined,
    instrument: instrument === undefined ? undefined : { class: instrument },
    ...readSequence(fields),
    ...ofKind(before.kind, fields),
  };
  return compact(item) as DraftItem;
}

function ofKind(kind: string, fields: Fields): Record<string, unknown> {
  const limit = readLimit(fields);
  const unit = fields.unit?.trim() ?? "";
  const decisionRule = text(fields.decisionRule);
  switch (kind) {
    case "measure":
      return { unit, limit, decisionRule };
    case "tighten":
      return { unit, limit, decisionRule, points: wholeNumber(fields.points ?? "") };
    case "count":
      return { limit };
    case "choose":
      return { limit, options: linesOf(fields.options ?? "") };
    case "identify":
      return { limit, what: fields.what };
    case "set":
      return { positions: readPositions(fields.positions ?? "") };
    case "photo":
      return { photos: wholeNumber(fields.photos ?? "") };
    case "sign":
      return { whose: fields.whose };
    default:
      return {};
  }
}

/** "Address = 1", or behind a second equals sign an expression: "Address == unit.position". */
function positionLines(positions: unknown): string {
  if (!Array.isArray(positions)) return "";
  return positions
    .map((one: Record<string, unknown>) => `${one.switch} = ${boundText(one.position)}`)
    .join("\n");
}

function readPositions(lines: string): object[] {
  return pairsOf(lines).map(([name, position]) => {
    const read = position.startsWith("=") ? readBound(position) : position;
    return { switch: name, position: read ?? "" };
  });
}

const text = (value: string | undefined): string | undefined =>
  value === undefined || value.trim() === "" ? undefined : value.trim();

function list(value: string | undefined): string[] | undefined {
  const lines = linesOf(value ?? "");
  return lines.length > 0 ? lines : undefined;
}

const compact = (record: Record<string, unknown>): Record<string, unknown> =>
  Object.fromEntries(Object.entries(record).filter(([, value]) => value !== undefined));
