// The value of a made-up answer as one field of a form, and back.

export interface ValueField {
  name: string;
  /** "text" to be typed, "tick" for yes or no. */
  as: "text" | "tick";
  value: string | boolean;
  unit?: string;
}

type Value = Record<string, unknown>;

/** Undefined where a value has no single field, such as positions of switches. */
export function valueField(value: unknown, index: number): ValueField | undefined {
  const of = (value ?? {}) as Value;
  const name = `a${index}`;
  if (typeof of.done === "boolean") return { name, as: "tick", value: of.done };
  const setting = of.setting as Value | undefined;
  const measured = setting ?? of;
  if ("number" in measured) {
    return { name, as: "text", value: String(measured.number), unit: String(measured.unit) };
  }
  for (const member of ["count", "choice", "text"]) {
    if (member in of) return { name, as: "text", value: String(of[member]) };
  }
  return undefined;
}

/**
 * @param typed what stands in its field; undefined where the box has no tick
 * @param sent whether the form that holds it was sent at all
 */
export function typedValue(value: unknown, typed: string | undefined, sent: boolean): unknown {
  const of = (value ?? {}) as Value;
  if (typeof of.done === "boolean") return sent ? { done: typed === "true" } : of;
  if (typed === undefined || typed.trim() === "") return of;
  const text = typed.trim();
  const setting = of.setting as Value | undefined;
  if (setting) return { ...of, setting: { ...setting, number: text } };
  if ("number" in of) return { ...of, number: text };
  if ("count" in of) return { count: /^\d+$/.test(text) ? Number(text) : text };
  if ("choice" in of) return { choice: text };
  return "text" in of ? { text } : of;
}
