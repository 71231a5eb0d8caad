import { DOOR_ACCESS } from "./access/doors.ts";
import { FLEET_ACCESS } from "./access/fleet.ts";
import { OFFICE_ACCESS } from "./access/office.ts";
import { RECORD_ACCESS } from "./access/record.ts";
import { REGISTRY_ACCESS } from "./access/registry.ts";
import { TABLE_ACCESS } from "./access/tables.ts";
import type { AccessRule } from "./web/access.ts";

/**
 * Who may do what: every route by its operation, and nothing else. The server does not start
 * otherwise.
 */
export const ACCESS: Record<string, AccessRule> = {
  ...OFFICE_ACCESS,
  ...RECORD_ACCESS,
  ...FLEET_ACCESS,
  ...DOOR_ACCESS,
  ...REGISTRY_ACCESS,
  ...TABLE_ACCESS,
};

/** Routes that a library adds by itself, by the path they start with. */
export const ACCESS_BY_PATH: Record<string, string> = {
  "/docs": "browseDocs",
  "/assets/": "assets",
};
