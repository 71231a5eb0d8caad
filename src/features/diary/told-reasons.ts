import type { Role } from "../../web/roles.ts";

/** Why somebody is away is the office's to know. */
export const isToldReasons = (roles: readonly Role[]): boolean =>
  roles.some((role) => role === "owner" || role === "office" || role === "manager");
