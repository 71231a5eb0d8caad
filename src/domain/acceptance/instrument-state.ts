// What is said of an instrument at the moment of a reading, whatever it is that is looked at.
export type InstrumentState =
  | { fit: true }
  | { fit: false; code: string; sentence: string; toClear: string };

/** Not fit, with the reason as code and sentence, and the way out. */
export const unfit = (code: string, sentence: string, toClear: string): InstrumentState => ({
  fit: false,
  code,
  sentence,
  toClear,
});
