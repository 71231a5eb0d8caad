// Who signed in on this tablet last, at hand before any store is open and without signal.
import type { Profile } from "../contract.ts";

const NAME = "holdpoint-profile";

type Place = Pick<Storage, "getItem" | "setItem" | "removeItem">;

export function rememberProfile(profile: Profile, place: Place = localStorage): void {
  place.setItem(NAME, JSON.stringify(profile));
}

export function recallProfile(place: Place = localStorage): Profile | undefined {
  try {
    const profile: unknown = JSON.parse(place.getItem(NAME) ?? "null");
    return isProfile(profile) ? profile : undefined;
  } catch {
    return undefined;
  }
}

export const forgetProfile = (place: Place = localStorage): void => place.removeItem(NAME);

export function isProfile(value: unknown): value is Profile {
  if (typeof value !== "object" || value === null) return false;
  const { firmId, personId, name, roles } = value as Partial<Profile>;
  return [firmId, personId, name].every((text) => typeof text === "string") && Array.isArray(roles);
}
