import type { FirmTransaction } from "../../db/scope.ts";
import { levelKey } from "../../domain/firmware/level-key.ts";
import type { FirmwareScheme } from "../../domain/firmware/levels.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import { findProductModel } from "../product-models/store.ts";
import { type By, dayOf, dayText } from "./keep-warranty.ts";
import type { NewTerms } from "./schemas.ts";
import { addTerms, claimedSince, lastTerms, removeTerms, type TermsRow } from "./store.ts";

const VERSIONS_MOST = 200;

/** A version is never changed; the next applies to units commissioned from a day on. */
export async function keepTerms(
  tx: FirmTransaction,
  modelId: string,
  terms: NewTerms,
  { personId: createdById, now }: By,
): Promise<TermsRow> {
  const model = await findProductModel(tx, modelId);
  if (!model) throw notFound("product model");
  const last = await lastTerms(tx, modelId);
  if (last && terms.appliesFrom <= dayText(last.appliesFrom)) {
    const since = dayText(last.appliesFrom);
    const detail = `Version ${last.number} applies from ${since}: name a later day.`;
    throw invalid("/body/appliesFrom", detail);
  }
  const number = (last?.number ?? 0) + 1;
  if (number > VERSIONS_MOST) {
    throw new Problem("conflict", `A model takes at most ${VERSIONS_MOST} versions of its terms.`);
  }
  const { firmware, temperature, appliesFrom, ...fields } = terms;
  return addTerms(tx, modelId, number, {
    ...{ ...fields, appliesFrom: dayOf(appliesFrom), createdById, createdAt: now },
    throughputKwh: fields.throughputKwh ?? null,
    registerWithinDays: fields.registerWithinDays ?? null,
    source: fields.source ?? null,
    firmwareLevel: firmware?.level ?? null,
    firmwareKey: firmware ? keyOrRefuse(model.firmwareScheme as FirmwareScheme, firmware) : null,
    firmwareWithinDays: firmware?.withinDays ?? null,
    temperatureLowest: temperature?.lowest ?? null,
    temperatureHighest: temperature?.highest ?? null,
  });
}

function keyOrRefuse(scheme: FirmwareScheme, { level }: { level: string }): bigint {
  const key = levelKey(scheme, level);
  if (key !== undefined) return key;
  const detail = `"${level}" has no place in the order of the model's levels (${scheme}).`;
  throw invalid("/body/firmware/level", detail);
}

/** Takes the latest version back, entered by a slip; one that claims were made under stays. */
export async function takeTermsBack(
  tx: FirmTransaction,
  modelId: string,
  number: number,
): Promise<TermsRow> {
  if (!(await findProductModel(tx, modelId))) throw notFound("product model");
  const last = await lastTerms(tx, modelId);
  if (!last || number > last.number) throw notFound("version");
  if (number < last.number) {
    const words = `Version ${number} is not the latest: take back version ${last.number} first.`;
    throw new Problem("conflict", words);
  }
  if (await claimedSince(tx, modelId, last.createdAt)) {
    const words = `Claims were opened under version ${number}, so it stays. Store the next one.`;
    throw new Problem("conflict", words);
  }
  await removeTerms(tx, last.id);
  return last;
}
