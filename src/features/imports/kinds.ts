import { customers } from "./customers.ts";
import { firmwareLevels } from "./firmware-levels.ts";
import { instruments } from "./instruments.ts";
import type { ImportKind } from "./kind.ts";
import type { ImportKindName } from "./schemas.ts";
import { sites } from "./sites.ts";
import { units } from "./units.ts";

const KINDS: Readonly<Record<ImportKindName, ImportKind>> = {
  customers,
  sites,
  units,
  instruments,
  "firmware-levels": firmwareLevels,
};

export const kindOf = (name: string): ImportKind => KINDS[name as ImportKindName];
