// The facts of a trial, made up by whoever tries a plan, as the rules want them.
import type { FirmTransaction } from "../../db/scope.ts";
import type { Answer } from "../../domain/acceptance/answer.ts";
import type { InstrumentFacts, JobContext, UnitFacts } from "../../domain/plan/context.ts";
import { type FieldError, Problem } from "../../errors.ts";
import type { PlanTrialRun } from "./trial-schemas.ts";
import { findInstrumentFacts, findModelFacts, type ModelFacts } from "./trial-store.ts";

/** Whoever grants a concession in a trial took none of its readings. */
const MANAGER = "trial-manager";
const PERSON = "trial-person";
const MINUTE_MS = 60_000;

type Context = PlanTrialRun["context"];

/** @throws Problem with the pointer of each reference to what the firm does not have */
export async function trialContext(
  tx: FirmTransaction,
  given: Context,
  now: Date,
): Promise<JobContext> {
  const modelIds = given.units.flatMap(({ productModelId }) => productModelId ?? []);
  const models = await findModelFacts(tx, modelIds);
  const ids = given.instruments.flatMap((one) => ("class" in one ? [] : [one.id]));
  const onFile = await findInstrumentFacts(tx, ids);
  const errors = [...unknownModels(given, models), ...unknownInstruments(given, onFile)];
  const [first] = errors;
  if (first) throw new Problem("invalid-input", `${first.pointer}: ${first.detail}`, { errors });
  return {
    site: given.site,
    units: given.units.map((unit, index) => unitOf(given.units, unit, index, models)),
    instruments: given.instruments.map((one) =>
      "class" in one ? (one as InstrumentFacts) : (onFile.get(one.id) as InstrumentFacts),
    ),
    concessions: given.concessions.map((concession, index) => ({
      ...{ itemId: concession.itemId, subject: concession.subject },
      ...{ id: `trial-concession-${index + 1}`, grantedBy: MANAGER },
      ...(concession.expiresOn ? { expiresOn: concession.expiresOn } : {}),
    })),
    now: given.now ?? now.toISOString(),
  };
}

function unknownModels(given: Context, models: ReadonlyMap<string, unknown>): FieldError[] {
  return given.units.flatMap(({ productModelId }, index) =>
    productModelId === undefined || models.has(productModelId)
      ? []
      : [
          {
            pointer: `/body/context/units/${index}/productModelId`,
            detail: "There is no such product model in your firm.",
          },
        ],
  );
}

function unknownInstruments(given: Context, onFile: ReadonlyMap<string, unknown>): FieldError[] {
  return given.instruments.flatMap((one, index) =>
    "class" in one || onFile.has(one.id)
      ? []
      : [
          {
            pointer: `/body/context/instruments/${index}/id`,
            detail: "There is no such instrument in your firm.",
          },
        ],
  );
}

function unitOf(
  units: Context["units"],
  unit: Context["units"][number],
  index: number,
  models: ReadonlyMap<string, ModelFacts>,
): UnitFacts {
  const model = models.get(unit.productModelId ?? "");
  const kind = unit.kind ?? model?.kind ?? "battery-pack";
  const ofKind = units.slice(0, index).filter((other) => {
    const otherModel = models.get(other.productModelId ?? "");
    return (other.kind ?? otherModel?.kind) === kind;
  });
  const id = unit.id ?? `${kind}-${ofKind.length + 1}`;
  return {
    ...{ id, kind, position: index + 1 },
    serial: unit.serial ?? id.toUpperCase(),
    modelCode: unit.modelCode ?? model?.modelCode ?? kind,
    attributes: { ...model?.attributes, ...unit.attributes },
    ...(unit.hardwareRevision ? { hardwareRevision: unit.hardwareRevision } : {}),
    ...(unit.serial && model?.serialRule ? { serialRule: model.serialRule } : {}),
  };
}

/** The answers in the order given; one without a time follows the one before by a minute. */
export function trialAnswers(given: PlanTrialRun["answers"], now: string): Answer[] {
  let clockMs = Date.parse(now) - (given.length + 1) * MINUTE_MS;
  return given.map(({ id, takenAt, instrumentId, photos, note, ...answer }, index) => {
    clockMs = takenAt === undefined ? clockMs + MINUTE_MS : Date.parse(takenAt);
    return {
      ...answer,
      ...{ id: id ?? `trial-answer-${index + 1}`, order: index + 1, personId: PERSON },
      takenAt: takenAt ?? new Date(clockMs).toISOString(),
      ...(instrumentId === undefined ? {} : { instrumentId }),
      ...(photos ? { photos } : {}),
      ...(note === undefined ? {} : { note }),
    };
  });
}
