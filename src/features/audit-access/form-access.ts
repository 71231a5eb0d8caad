// An access as people type it: days, boxes of models and references of sites.
import { z } from "zod";
import type { FirmTransaction } from "../../db/scope.ts";
import { invalid } from "../../errors.ts";
import { plainDate } from "../../web/fields.ts";
import {
  type FieldProblems,
  type FormBody,
  listOf,
  readForm,
  requireForm,
} from "../../web/form.ts";
import { NewAccess, SITES_MOST } from "./schemas.ts";
import { sitesByReference } from "./store.ts";

const Typed = z.object({
  outside: z.stringbool().default(false),
  from: plainDate().optional(),
  until: plainDate().optional(),
  periodFrom: plainDate().optional(),
  periodTo: plainDate().optional(),
  sites: z.string().max(5000).default(""),
});

export type TypedAccess =
  | { ok: true; value: z.output<typeof Typed> & { modelIds: string[] } }
  | { ok: false; problems: FieldProblems };

export function readAccessForm(body: FormBody): TypedAccess {
  const { models: _models, ...fields } = body;
  const read = readForm(Typed, fields);
  if (!read.ok) return read;
  const { periodFrom, periodTo } = read.value;
  if ((periodFrom === undefined) !== (periodTo === undefined) || `${periodTo}` < `${periodFrom}`) {
    const detail = "Give two days, the first not after the last.";
    return { ok: false, problems: { periodTo: detail } };
  }
  return { ok: true, value: { ...read.value, modelIds: listOf(body.models) } };
}

/** Throws a refusal that names the form's field. */
export async function accessOfForm(
  tx: FirmTransaction,
  typed: Extract<TypedAccess, { ok: true }>["value"],
): Promise<NewAccess> {
  const { outside, from, until, periodFrom, periodTo, modelIds } = typed;
  const references = [
    ...new Set(
      typed.sites
        .toUpperCase()
        .split(/[\s,;]+/)
        .filter(Boolean),
    ),
  ];
  if (references.length > SITES_MOST) {
    throw invalid("/body/sites", `names more than ${SITES_MOST} sites`);
  }
  const sites = await sitesByReference(tx, references);
  const known = new Set(sites.map(({ reference }) => reference));
  const unknown = references.find((reference) => !known.has(reference));
  if (unknown !== undefined) throw invalid("/body/sites", `There is no site ${unknown}.`);
  return requireForm(NewAccess, {
    ...{ outside, from, until },
    scope: {
      ...(periodFrom && periodTo ? { period: { from: periodFrom, to: periodTo } } : {}),
      ...(modelIds.length > 0 ? { modelIds } : {}),
      ...(sites.length > 0 ? { siteIds: sites.map(({ id }) => id) } : {}),
    },
  });
}
