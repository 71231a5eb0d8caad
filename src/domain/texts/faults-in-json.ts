// Requirement: free JSON (attributes, kit lines, answers, documents) holds texts like any field.
// A loop and not a recursion, because what comes in may be as deep as it likes.
import { type Lines, textFault } from "./text-fault.ts";

/** Members and places from the value to a text; of a member's name to what has the member. */
export type Path = readonly (string | number)[];

export interface PlacedFault {
  path: Path;
  fault: string;
}

/** So many are told; whoever mends them may learn of more. */
export const FAULTS_MOST = 20;
/** Deeper than any document that is kept. */
export const LEVELS_MOST = 100;

interface Place {
  value: unknown;
  level: number;
  name: string | number;
  parent: Place | undefined;
}

/**
 * The texts of a JSON value that cannot be kept as they are, names of members included.
 *
 * @param linesAt what is asked of the text at a place
 */
export function faultsInJson(json: unknown, linesAt: (path: Path) => Lines): PlacedFault[] {
  const faults: PlacedFault[] = [];
  const waiting: Place[] = [{ value: json, level: 0, name: "", parent: undefined }];
  for (let place = waiting.pop(); place && faults.length < FAULTS_MOST; place = waiting.pop()) {
    const fault = valueFault(place, linesAt);
    if (fault) faults.push({ path: pathOf(place), fault });
    else if (typeof place.value === "object") addMembers(place, waiting);
  }
  return faults;
}

function valueFault(place: Place, linesAt: (path: Path) => Lines): string | undefined {
  const { value, level } = place;
  if (typeof value === "string") {
    return textFault(value, "one") && textFault(value, linesAt(pathOf(place)));
  }
  if (level > LEVELS_MOST) return `lies more than ${LEVELS_MOST} levels deep`;
  const isNamedWell = namesOf(value).every((name) => textFault(name, "one") === undefined);
  return isNamedWell ? undefined : NAME_FAULT;
}

const NAME_FAULT = "has a member whose name holds control characters or half a character";

/** The last first, so that the first is taken next. */
function addMembers(place: Place, waiting: Place[]): void {
  const { value, level } = place;
  if (Array.isArray(value)) {
    for (let name = value.length - 1; name >= 0; name -= 1) {
      waiting.push({ value: value[name], level: level + 1, name, parent: place });
    }
    return;
  }
  for (const name of namesOf(value).reverse()) {
    const member = (value as Record<string, unknown>)[name];
    waiting.push({ value: member, level: level + 1, name, parent: place });
  }
}

/** Of plain objects: bytes and streams are no JSON. */
function namesOf(value: unknown): string[] {
  if (typeof value !== "object" || value === null || Array.isArray(value)) return [];
  const prototype: unknown = Object.getPrototypeOf(value);
  return prototype === null || prototype === Object.prototype ? Object.keys(value) : [];
}

function pathOf(place: Place): Path {
  const path: (string | number)[] = [];
  for (let at = place; at.parent; at = at.parent) path.unshift(at.name);
  return path;
}
