// A scope as people type it: a reference, a serial number or two days.
import type { FirmTransaction } from "../../db/scope.ts";
import { invalid } from "../../errors.ts";
import type { FormBody } from "../../web/form.ts";
import { ExportScope } from "./schemas.ts";
import { siteByReference, unitsBySerial } from "./scope-store.ts";

/** Throws a refusal that names the form's field. */
export async function scopeOfForm(tx: FirmTransaction, typed: FormBody): Promise<ExportScope> {
  const text = (name: string): string => String(typed[name] ?? "").trim();
  const refuse = (field: string, detail: string) => invalid(`/body/${field}`, detail);
  switch (text("kind")) {
    case "fleet":
      return { kind: "fleet" };
    case "site": {
      const siteId = await siteByReference(tx, text("site").toUpperCase());
      if (siteId) return { kind: "site", siteId };
      throw refuse("site", "There is no site with this reference.");
    }
    case "unit": {
      const [unitId, second] = await unitsBySerial(tx, text("serial").toUpperCase());
      if (unitId && !second) return { kind: "unit", unitId };
      if (!unitId) throw refuse("serial", "There is no unit with this serial number.");
      throw refuse("serial", "Units of several models have this serial number: use the interface.");
    }
    default: {
      const period = { kind: "period", from: text("from"), to: text("to") };
      const parsed = ExportScope.safeParse(period);
      if (parsed.success) return parsed.data;
      const field = parsed.error.issues[0]?.path[0] === "from" ? "from" : "to";
      throw refuse(field, "Give two days, the first not after the last.");
    }
  }
}
