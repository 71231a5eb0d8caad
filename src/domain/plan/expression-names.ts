// Requirement: an expression reads declared names only, each of one type (blueprint: unknown names
// are faults of the plan). A name is looked up in the caller's own tables and stands in the
// rewritten expression as a slot: d0, d1 for numbers, s0 for texts.
import { notAllowed, ProfileFault } from "./profile-fault.ts";

export type ValueType = "double" | "bool" | "string" | "list<double>";

/** A name that an expression reads: `answers.pack_voltage`, or plain `value`. */
export interface Reference {
  readonly root: string;
  /** Empty for `value`. */
  readonly field: string;
  readonly type: ValueType;
  readonly slot: string;
}

/** The type of a name; undefined where there is no such name. `field` is empty for a bare word. */
export type ResolveName = (root: string, field: string) => ValueType | undefined;

const PREFIXES: Readonly<Record<ValueType, string>> = {
  double: "d",
  bool: "b",
  string: "s",
  "list<double>": "l",
};
/** Names of one type that one expression may read. */
const SLOTS_MOST = 30;

/** Every slot with its type, to be declared once. */
export const SLOTS: readonly { slot: string; type: ValueType }[] = Object.entries(PREFIXES).flatMap(
  ([type, prefix]) =>
    Array.from({ length: SLOTS_MOST }, (_, index) => ({
      slot: `${prefix}${index}`,
      type: type as ValueType,
    })),
);

/** Gives each name of one expression its slot. */
export class NameSlots {
  readonly #resolve: ResolveName;
  readonly #found = new Map<string, Reference>();

  constructor(resolve: ResolveName) {
    this.#resolve = resolve;
  }

  /** @throws ProfileFault where there is no such name, or too many of them */
  slot(root: string, field: string): string {
    const name = `${root}.${field}`;
    const known = this.#found.get(name);
    if (known) return known.slot;
    const type = this.#resolve(root, field);
    if (!type) throw new ProfileFault("unknown-name", unknownName(root, field));
    const place = this.references().filter((other) => other.type === type).length;
    if (place >= SLOTS_MOST) throw notAllowed(`it reads more than ${SLOTS_MOST} names`);
    const slot = `${PREFIXES[type]}${place}`;
    this.#found.set(name, { root, field, type, slot });
    return slot;
  }

  references(): readonly Reference[] {
    return [...this.#found.values()];
  }
}

function unknownName(root: string, field: string): string {
  const known = Object.hasOwn(ROOTS, root) ? ROOTS[root] : undefined;
  if (!known) return `${field === "" ? root : `${root}.${field}`} is not a name plans know`;
  if (root === "value") return known.reason;
  return field === ""
    ? `${root} is read part by part, such as ${root}.${known.part}`
    : `${root}.${field} ${known.reason}`;
}

/** What is said of a name that a root has not; `part` is one that it could have. */
const ROOTS: Readonly<Record<string, { part: string; reason: string }>> = {
  value: { part: "", reason: "value is known in the expression of a limit only" },
  model: {
    part: "nominalVoltageV",
    reason: "is no attribute this plan declares, or the item is not asked per unit",
  },
  unit: {
    part: "serial",
    reason: "is not known: an item asked per unit has serial, kind, hardwareRevision and position",
  },
  site: { part: "supply", reason: "is not known: a site has supply, region and country" },
  count: {
    part: "inverter",
    reason: "is not known: count has batteryPack, inverter, gateway, meter and isolator",
  },
  answers: {
    part: "pack_voltage",
    reason: "is no other item with a plain answer for the same subject; readings has them all",
  },
  readings: {
    part: "pack_voltage",
    reason: "is no other item with a number that is asked several times",
  },
};
