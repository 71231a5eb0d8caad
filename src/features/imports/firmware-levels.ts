import { z } from "zod";
import { normaliseSerial } from "../../domain/identifiers/check-serial.ts";
import { shortText } from "../../web/fields.ts";
import { readAtFault } from "../firmware/record-reading.ts";
import { NewFirmwareReading } from "../firmware/schemas.ts";
import { applyLevels, judgeLevels } from "./firmware-levels-store.ts";
import { type ImportKind, missing, readBySchema } from "./kind.ts";
import { readFirmModels } from "./models-store.ts";

/** The unit is told by its serial, and by its model where several have that serial. */
const LevelRow = NewFirmwareReading.pick({ level: true, readAt: true }).extend({
  serial: z.string().min(1).max(500),
  model: shortText(80).optional(),
});

export const firmwareLevels: ImportKind = {
  fields: [
    {
      ...{ name: "serial", cell: "text", requirement: "key" },
      words: ["serial number", "serial no", "sn", "s/n", "número de serie", "nº de serie", "serie"],
    },
    {
      ...{ name: "model", cell: "text" },
      words: ["product model", "model code", "product", "modelo", "código de modelo"],
    },
    {
      ...{ name: "level", cell: "text", requirement: "key" },
      words: [
        "firmware",
        "firmware level",
        "firmware version",
        "version",
        "nivel",
        "versión",
      ].concat(["nivel de firmware", "versión de firmware"]),
    },
    {
      ...{ name: "readAt", cell: "moment", requirement: "key" },
      words: ["read", "read on", "date", "time", "timestamp", "leído", "fecha", "fecha de lectura"],
    },
  ],
  open: async (tx, now) => {
    const models = await readFirmModels(tx);
    const byCode = new Map(models.map(({ code, id }) => [code.toLowerCase(), id]));
    return (values) => {
      for (const field of ["serial", "level", "readAt"]) {
        if (values[field] === undefined) return missing(field);
      }
      const read = readBySchema(LevelRow, values);
      if (!read.ok) return read;
      const { model, level } = read.value;
      const modelId = model === undefined ? undefined : byCode.get(model.toLowerCase());
      if (model !== undefined && modelId === undefined) {
        const detail = "There is no such product model in your firm.";
        return { ok: false, field: "model", detail };
      }
      const fault = readAtFault(new Date(read.value.readAt), now);
      if (fault !== undefined) return { ok: false, field: "readAt", detail: fault };
      const serial = normaliseSerial(read.value.serial);
      const readAt = new Date(read.value.readAt).toISOString();
      return {
        ok: true,
        fields: { serial, level, readAt, ...(modelId ? { modelId } : {}) },
        naturalKey: JSON.stringify([modelId ?? "", serial, readAt, level]),
      };
    };
  },
  judge: judgeLevels,
  apply: applyLevels,
};
