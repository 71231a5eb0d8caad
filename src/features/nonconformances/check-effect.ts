// A look at whether the correction works: effective ends the follow-up, not effective opens it
// again, with what was checked kept beside the verdict.
import type { FirmTransaction } from "../../db/scope.ts";
import { afterEffectCheck, missingToJudge } from "../../domain/corrective/follow-up.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import { say } from "../../language/say.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import { appendToLedger } from "../ledger/store.ts";
import { addEffectCheck, EFFECT_CHECKS_MOST, listEffectChecks } from "./effect-store.ts";
import type { Who } from "./follow-up.ts";
import type { NewEffectCheck } from "./schemas.ts";
import { editNonconformance, findNonconformance } from "./store.ts";

export async function checkEffect(
  tx: FirmTransaction,
  id: string,
  { verdict, note }: NewEffectCheck,
  { personId, language, now }: Who,
) {
  const before = await judgeable(tx, id, language);
  const { cause, correction } = before;
  const change = afterEffectCheck(verdict, note);
  const again = verdict === "effective" ? {} : { effectDueOn: null, effectById: null };
  const after = await editNonconformance(tx, id, before.version, {
    ...{ ...change, ...again },
    closedAt: change.state === "closed" ? now : null,
  });
  if (!after) throw editedMeanwhile();
  const fields = { nonconformanceId: id, verdict, note, cause, correction };
  const row = await addEffectCheck(tx, { ...fields, checkedById: personId }, now);
  if (after.jobId) {
    const { reference, state } = after;
    const body = {
      effectCheckId: row.id,
      nonconformanceId: id,
      personId,
      reference,
      state,
      verdict,
    };
    await appendToLedger(tx, after.jobId, { kind: "nonconformance.effect-checked", body, at: now });
  }
  return row;
}

/** The nonconformance with what there is to judge. */
async function judgeable(tx: FirmTransaction, id: string, language: Who["language"]) {
  const row = await findNonconformance(tx, id);
  if (!row) throw notFound("nonconformance");
  const { cause, correction } = row;
  if (!cause || !correction) {
    const [missing] = missingToJudge(row);
    const key =
      missing === "cause" ? "nonconformance.judgeCause" : "nonconformance.judgeCorrection";
    throw invalid("/body/verdict", say(language, key));
  }
  if ((await listEffectChecks(tx, id)).length >= EFFECT_CHECKS_MOST) {
    const most = `A nonconformance takes at most ${EFFECT_CHECKS_MOST} effect checks.`;
    throw new Problem("conflict", most);
  }
  return { ...row, cause, correction };
}
