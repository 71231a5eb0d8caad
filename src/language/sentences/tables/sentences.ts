// Every sentence that is made in English and shown, by its English template. An area has one file.
import { acceptance } from "./acceptance.ts";
import { instruments } from "./instruments.ts";
import { readings } from "./readings.ts";
import { sequence } from "./sequence.ts";
import { serials } from "./serials.ts";

export const SENTENCES: Readonly<Record<string, string>> = {
  ...acceptance,
  ...instruments,
  ...sequence,
  ...readings,
  ...serials,
};
