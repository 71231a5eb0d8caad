// Reasons and gaps of a kit in the reader's language; names of tools by their class.
import type { KitGap, KitItem, KitNote } from "../../domain/kit/kit-item.ts";
import type { UnitSystem } from "../../domain/quantities/display-unit.ts";
import { formatQuantity } from "../../domain/quantities/format-quantity.ts";
import type { Unit } from "../../domain/quantities/units.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { number } from "../../language/moments.ts";
import { isMessageKey, say } from "../../language/say.ts";

export interface Reader {
  language: ShownLanguage;
  unitSystem: UnitSystem;
}

const ITEMS_NAMED = 4;

const inUnits = (value: number, unit: Unit, { unitSystem }: Reader): string =>
  formatQuantity(value, unit, { system: unitSystem });

export function noteText(note: KitNote, reader: Reader): string {
  const { language } = reader;
  switch (note.code) {
    case "for-items": {
      const named = note.items.slice(0, ITEMS_NAMED).join(", ");
      const more = note.items.length - ITEMS_NAMED;
      return say(language, "kit.note.forItems", { items: named, more: Math.max(0, more) });
    }
    case "torque-settings":
      return say(language, "kit.note.torqueSettings", { settings: note.settings.join(", ") });
    case "shear-each":
      return say(language, "kit.note.shearEach", { newtons: number(language, note.newtons) });
    case "tension-each":
      return say(language, "kit.note.tensionEach", { newtons: number(language, note.newtons) });
    case "tension-unknown":
      return say(language, "kit.note.tensionUnknown", { missing: note.missing.join(", ") });
    case "one-person-most":
    case "two-people-most": {
      const heaviest = inUnits(note.heaviestKg, "kg", reader);
      const key = note.code === "one-person-most" ? "kit.note.onePerson" : "kit.note.twoPeople";
      return say(language, key, { heaviest, most: inUnits(note.mostKg, "kg", reader) });
    }
    case "least-run":
      return say(language, "kit.note.leastRun", { from: note.from, to: note.to });
    case "reach":
      return say(language, "kit.note.reach", { height: inUnits(note.heightMm, "mm", reader) });
    case "combustible-wall":
      return say(language, "kit.note.combustibleWall", { place: note.place });
    default:
      return note.text;
  }
}

export function gapText(gap: KitGap, language: ShownLanguage): string {
  switch (gap.code) {
    case "no-survey":
      return say(language, "kit.gap.noSurvey");
    case "wall-not-surveyed":
      return say(language, "kit.gap.wall", { place: gap.place });
    case "not-on-one-wall":
      return say(language, "kit.gap.cable", { unit: gap.unit });
    default:
      return say(language, "kit.gap.mass", { model: gap.model });
  }
}

/** Tools by their class, and what follows from the work itself, have names in the catalogue. */
export function nameText({ key, toolClass, name }: KitItem, language: ShownLanguage): string {
  if (toolClass !== undefined) return toolName(toolClass, language);
  const [source, id = ""] = key.split(":");
  if (source !== "work" && source !== "survey") return name;
  const text = `kit.work.${camel(id)}`;
  return isMessageKey(text) ? say(language, text) : name;
}

export function toolName(toolClass: string, language: ShownLanguage): string {
  const text = `kit.tool.${camel(toolClass)}`;
  return isMessageKey(text) ? say(language, text) : toolClass.replaceAll("-", " ");
}

const camel = (words: string): string =>
  words.replaceAll(/-([a-z])/g, (_all, letter: string) => letter.toUpperCase());

export function amountText(
  { amount, countedIn, perPerson }: Pick<KitItem, "amount" | "countedIn" | "perPerson">,
  language: ShownLanguage,
): string {
  const counted = countedText(amount, countedIn, language);
  return perPerson ? say(language, "kit.each", { amount: counted }) : counted;
}

/** "12 pieces", "4.5 m", "2 pairs". */
export function countedText(
  amount: number,
  countedIn: KitItem["countedIn"],
  language: ShownLanguage,
): string {
  const values = { amount: number(language, amount), count: amount };
  return say(language, `kit.counted.${countedIn}`, values);
}
