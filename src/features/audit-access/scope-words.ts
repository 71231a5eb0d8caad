import type { FirmTransaction } from "../../db/scope.ts";
import { type AccessFields, findAccess, modelsNamed, sitesNamed } from "./store.ts";

/** A scope as people read it. */
export interface NamedScope {
  period: { from: string; to: string } | null;
  models: string[];
  sites: string[];
}

export async function namedScope(
  tx: FirmTransaction,
  {
    periodFrom,
    periodTo,
    modelIds,
    siteIds,
  }: Pick<AccessFields, "modelIds" | "siteIds"> & {
    periodFrom: Date | null;
    periodTo: Date | null;
  },
): Promise<NamedScope> {
  const day = (date: Date) => date.toISOString().slice(0, 10);
  return {
    period: periodFrom && periodTo ? { from: day(periodFrom), to: day(periodTo) } : null,
    models: (await modelsNamed(tx, modelIds)).map(({ code }) => code),
    sites: (await sitesNamed(tx, siteIds)).map(({ reference }) => reference),
  };
}

/** The scope of that access; undefined where there is no such one. */
export async function scopeOfAccess(
  tx: FirmTransaction,
  accessId: string,
): Promise<NamedScope | undefined> {
  const row = await findAccess(tx, accessId);
  return row ? namedScope(tx, row) : undefined;
}

const NAMED_MOST = 5;

/** In English, as it stands in the title of a bag: every part, or how many where they are many. */
export function scopeWords({ period, models, sites }: NamedScope): string {
  const named = (names: readonly string[], one: string, many: string) =>
    names.length > NAMED_MOST
      ? [`${names.length} ${many}`]
      : names.length > 0
        ? [`${names.length === 1 ? one : many} ${names.join(", ")}`]
        : [];
  return [
    ...(period ? [`jobs closed or visited from ${period.from} to ${period.to}`] : []),
    ...named(models, "product model", "product models"),
    ...named(sites, "site", "sites"),
  ].join("; ");
}
