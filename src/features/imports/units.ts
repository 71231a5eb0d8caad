import type { FirmTransaction } from "../../db/scope.ts";
import type { CheckScheme } from "../../domain/identifiers/check-schemes.ts";
import { checkSerial } from "../../domain/identifiers/check-serial.ts";
import { Problem } from "../../errors.ts";
import { dateTime, shortText } from "../../web/fields.ts";
import { momentGiven } from "../units/move.ts";
import { NewUnit } from "../units/schemas.ts";
import { type ImportKind, missing, type RowReading, readBySchema, type Values } from "./kind.ts";
import { readFirmModels } from "./models-store.ts";
import { applyUnits, judgeUnits } from "./units-store.ts";

/** Model and site are told by code and reference, which people know, instead of ids. */
const UnitRow = NewUnit.omit({ modelId: true }).extend({
  model: shortText(80),
  site: shortText(40).optional(),
  installedAt: dateTime().optional(),
});
const NO_MODEL = "There is no such product model in your firm.";

export const units: ImportKind = {
  fields: [
    {
      ...{ name: "model", cell: "text", requirement: "key" },
      words: ["product model", "model code", "product", "type", "modelo", "código de modelo"],
    },
    {
      ...{ name: "serial", cell: "text", requirement: "key" },
      words: ["serial number", "serial no", "sn", "s/n", "número de serie", "nº de serie", "serie"],
    },
    {
      ...{ name: "hardwareRevision", cell: "text" },
      words: ["revision", "hardware", "hw", "revisión", "revisión de hardware"],
    },
    {
      ...{ name: "site", cell: "text" },
      words: ["site reference", "site number", "installed at", "sitio", "referencia del sitio"],
    },
    {
      ...{ name: "installedAt", cell: "moment" },
      words: [
        "installed",
        "installation date",
        "installed on",
        "fecha de instalación",
        "instalado",
      ],
    },
    { ...{ name: "note", cell: "text" }, words: ["notes", "remarks", "nota", "notas"] },
  ],
  open: async (tx, now) => {
    const models = await modelsOf(tx);
    return (values) => readUnit(values, models, now);
  },
  judge: judgeUnits,
  apply: applyUnits,
};

type Models = ReadonlyMap<string, { id: string; serialMask: string; serialCheck: string }>;

const modelsOf = async (tx: FirmTransaction): Promise<Models> =>
  new Map((await readFirmModels(tx)).map((model) => [model.code.toLowerCase(), model]));

function readUnit(values: Values, models: Models, now: Date): RowReading {
  if (values.model === undefined) return missing("model");
  if (values.serial === undefined) return missing("serial");
  const read = readBySchema(UnitRow, values);
  if (!read.ok) return read;
  const { model: code, installedAt, ...rest } = read.value;
  const model = models.get(code.toLowerCase());
  if (!model) return { ok: false, field: "model", detail: NO_MODEL };
  const rule = { mask: model.serialMask, check: model.serialCheck as CheckScheme };
  const checked = checkSerial(rule, rest.serial);
  if (!checked.ok) return { ok: false, field: "serial", detail: checked.problem };
  if (installedAt !== undefined && rest.site === undefined) {
    return { ok: false, field: "installedAt", detail: "goes with a site: give its reference too" };
  }
  const fault = momentFault(installedAt, now);
  if (fault !== undefined) return { ok: false, field: "installedAt", detail: fault };
  const { serial } = checked;
  const at = installedAt === undefined ? {} : { installedAt };
  return {
    ok: true,
    fields: { ...rest, ...at, serial, modelId: model.id },
    naturalKey: `${model.id} ${serial}`,
  };
}

/** What the interface says of a moment of installation that it refuses. */
function momentFault(text: string | undefined, now: Date): string | undefined {
  try {
    momentGiven(text, now);
    return undefined;
  } catch (error) {
    if (error instanceof Problem) return error.message;
    throw error;
  }
}
