import type { ShownLanguage } from "../../language/languages.ts";
import { number, plainDay } from "../../language/moments.ts";
import { isMessageKey, say } from "../../language/say.ts";
import type { BatteryPassport } from "./schemas.ts";

const SIGNS = {
  same: { sign: "good", mark: "✓" },
  other: { sign: "bad", mark: "✗" },
  none: { sign: "warn", mark: "▲" },
} as const;

/** What parts/battery-passport.hbs shows. */
export function passportView(passport: BatteryPassport, language: ShownLanguage) {
  return {
    ...{ unitId: passport.unitId, uri: passport.uri, version: passport.version },
    isKept: passport.uri !== null || passport.values.length > 0,
    serial: passport.uri !== null && {
      ...SIGNS[passport.serial],
      text: say(language, `passport.serial.${passport.serial}`),
    },
    elements: passport.elements.map(({ ai, value }) => {
      const key = `passport.element.${ai}`;
      return { ai, value, name: isMessageKey(key) ? say(language, key) : "" };
    }),
    values: passport.values.map(({ field, value, unit, point, readOn }) => ({
      ...{ unit, point, name: say(language, `passport.field.${field}`) },
      value: typeof value === "number" ? number(language, value) : value,
      day: plainDay(language, readOn),
    })),
  };
}
