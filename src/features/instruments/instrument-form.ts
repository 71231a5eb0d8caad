import type { FastifyReply, FastifyRequest } from "fastify";
import { TORQUE_CLASSES } from "../../domain/acceptance/torque-tool.ts";
import { INSTRUMENT_CLASSES } from "../../domain/plan/item.ts";
import { UNIT_SYMBOLS } from "../../domain/quantities/units.ts";
import { say } from "../../language/say.ts";
import { type FieldProblems, type FormBody, withBlank } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import type { InstrumentRow } from "./store.ts";

type Typed = Readonly<Record<string, string>>;
const PARTS = ["percentOfReading", "percentOfRange", "digits", "percentOfSetting"] as const;

/** The form's single fields as the body of the interface; what is left empty is null. */
export function bodyOf(typed: Typed): Record<string, unknown> {
  const { reference, name, instrumentClass, serial } = typed;
  const parts = PARTS.filter((part) => typed[part]).map((part) => [part, numberOf(typed[part])]);
  return {
    ...{ reference, name, serial },
    ...(instrumentClass === undefined ? {} : { instrumentClass }),
    ...(typed.version === undefined ? {} : { version: typed.version }),
    accuracy: parts.length > 0 ? Object.fromEntries(parts) : null,
    rangeMax: typed.rangeMax ? { value: numberOf(typed.rangeMax), unit: typed.rangeUnit } : null,
    resolution: typed.step ? { step: numberOf(typed.step), unit: typed.stepUnit } : null,
    torqueTool: typed.torqueType ? { type: typed.torqueType, class: typed.torqueClass } : null,
    ...(typed.intervalMonths ? { intervalMonths: numberOf(typed.intervalMonths) } : {}),
    ...cyclesOf(typed),
  };
}

/** Empty for a new one means the standard's; for one that is there it means none. */
const cyclesOf = ({ intervalCycles, version }: Typed): { intervalCycles?: number | null } =>
  intervalCycles
    ? { intervalCycles: numberOf(intervalCycles) }
    : version === undefined
      ? {}
      : { intervalCycles: null };

/** A text that is no number stays one, and is refused as such. */
const numberOf = (text: string | undefined): number => Number((text ?? "").replace(",", "."));

export function typedOf(row: InstrumentRow): FormBody {
  const accuracy = (row.accuracy ?? {}) as Record<string, number>;
  const range = (row.rangeMax ?? {}) as { value?: number; unit?: string };
  const resolution = (row.resolution ?? {}) as { step?: number; unit?: string };
  const tool = (row.torqueTool ?? {}) as { type?: string; class?: string };
  const texts = {
    ...accuracy,
    ...{ rangeMax: range.value, rangeUnit: range.unit },
    ...{ step: resolution.step, stepUnit: resolution.unit },
    ...{ torqueType: tool.type, torqueClass: tool.class },
    ...{ intervalMonths: row.intervalMonths, intervalCycles: row.intervalCycles },
    version: row.version,
  };
  const { reference, name, serial, instrumentClass } = row;
  const said = Object.entries(texts).map(([field, value]) => [field, `${value ?? ""}`]);
  return { reference, name, serial, instrumentClass, ...Object.fromEntries(said) };
}

export interface ShownForm {
  id?: string;
  typed: FormBody;
  problems?: FieldProblems;
}

export function showForm(request: FastifyRequest, reply: FastifyReply, shown: ShownForm) {
  const { language } = request;
  const same = (names: readonly string[]) => names.map((name) => ({ value: name, text: name }));
  return sendPage(request, reply, "instrument-form", {
    title: shown.id ? String(shown.typed.reference) : say(language, "registry.newInstrument"),
    ...shown,
    classes: withBlank(
      INSTRUMENT_CLASSES.map((value) => ({
        value,
        text: say(language, `registry.class.${value}`),
      })),
      shown.typed.instrumentClass,
    ),
    units: same(UNIT_SYMBOLS),
    torqueTypes: same(["I", "II"]),
    torqueClasses: same(TORQUE_CLASSES.II),
  });
}
