// Requirement: faults of one item that its shape alone does not show: units, limits, names used
// twice.
import { unitFromText } from "../quantities/unit-text.ts";
import { isUnit, quantityOf } from "../quantities/units.ts";
import type { Item } from "./item.ts";
import { limitFaults } from "./limit-check.ts";

/** A fault with its JSON pointer from the item. */
export interface ItemFault {
  place: string;
  code: string;
  sentence: string;
}

/** Words that CEL keeps for itself: an expression could not name an item called so. */
const CEL_WORDS = new Set(["false", "in", "null", "true"]);

/** Everything wrong with an item by itself. */
export function itemFaults(item: Item): ItemFault[] {
  const faults: ItemFault[] = [];
  if (CEL_WORDS.has(item.id)) {
    const sentence = `"${item.id}" is a word of the expressions; call the item otherwise.`;
    faults.push({ place: "/id", code: "reserved-id", sentence });
  }
  if ("unit" in item) faults.push(...unitFaults(item.unit, item.kind === "tighten"));
  faults.push(...limitFaults(item).map(({ place, problem }) => fault(place, "limit", problem)));
  faults.push(...dwellFaults(item));
  for (const { place, names } of listsOf(item)) {
    for (const [index, name] of names.entries()) {
      if (names.indexOf(name) === index) continue;
      faults.push(fault(place(index), "doubled-id", `"${name}" is here twice.`));
    }
  }
  return faults;
}

const fault = (place: string, code: string, sentence: string): ItemFault => ({
  place,
  code,
  sentence,
});

function unitFaults(unit: string, isTorque: boolean): ItemFault[] {
  if (!isUnit(unit)) {
    const meant = unitFromText(unit);
    const advice = meant ? `write ${meant}` : "write it as V, mΩ, N·m or mm";
    return [fault("/unit", "unknown-unit", `"${unit}" is not the symbol of a unit: ${advice}.`)];
  }
  if (!isTorque || quantityOf(unit) === "torque") return [];
  return [fault("/unit", "unknown-unit", `A wrench is set to a torque; "${unit}" is none.`)];
}

/** What about the item's waiting time cannot be. */
function dwellFaults({ dwell }: Item): ItemFault[] {
  if (dwell?.atMostS === undefined || dwell.atMostS >= dwell.atLeastS) return [];
  const times = `at least ${dwell.atLeastS} s and at most ${dwell.atMostS} s`;
  return [fault("/dwell", "dwell", `No time is both ${times}.`)];
}

interface NamedList {
  names: string[];
  place(index: number): string;
}

/** The lists of an item in which nothing may stand twice. */
function listsOf(item: Item): NamedList[] {
  const lists: NamedList[] = [
    { names: item.after ?? [], place: (index) => `/after/${index}` },
    { names: item.onFailRepeat ?? [], place: (index) => `/onFailRepeat/${index}` },
  ];
  if (item.kind === "choose") {
    lists.push({ names: item.options, place: (index) => `/options/${index}` });
  }
  if (item.kind === "set") {
    const names = item.positions.map((entry) => entry.switch);
    lists.push({ names, place: (index) => `/positions/${index}/switch` });
  }
  if (item.repeat && "per" in item.repeat && item.repeat.per === "fastener-group") {
    const names = item.repeat.groups.map((group) => group.id);
    lists.push({ names, place: (index) => `/repeat/groups/${index}/id` });
  }
  return lists;
}
