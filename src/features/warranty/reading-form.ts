// The form of a reading is flat; the interface groups the temperatures.
import { z } from "zod";
import { plainDate } from "../../web/fields.ts";
import { type FormBody, type FormRead, readForm } from "../../web/form.ts";
import { NewReading } from "./schemas.ts";

const count = z.coerce.number("must be a number").optional();
const Flat = z.strictObject({
  ...{ readOn: plainDate(), throughputKwh: count },
  ...{ temperatureLowest: count, temperatureHighest: count },
});

export function readReadingForm(typed: FormBody): FormRead<NewReading> {
  const flat = readForm(Flat, typed);
  if (!flat.ok) return flat;
  const { temperatureLowest: lowest, temperatureHighest: highest, ...rest } = flat.value;
  if ((lowest === undefined) !== (highest === undefined)) {
    return { ok: false, problems: { temperatureHighest: "Give both temperatures or none." } };
  }
  const temperature = lowest === undefined ? {} : { temperature: { lowest, highest } };
  const read = readForm(NewReading, { ...rest, ...temperature });
  if (read.ok) return read;
  const { temperature: problem, ...problems } = read.problems;
  return { ok: false, problems: problem ? { ...problems, temperatureHighest: problem } : problems };
}
