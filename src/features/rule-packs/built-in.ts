// The packs that come with the product. A firm reads them and adds its own beside them.
import type { RulePack } from "../../domain/siting/rule-pack.ts";
import { AU_NZ_RULE_PACK } from "../../domain/siting/rule-packs/au-nz.ts";
import { UK_RULE_PACK } from "../../domain/siting/rule-packs/uk.ts";
import { US_RULE_PACK } from "../../domain/siting/rule-packs/us.ts";

export const BUILT_IN_PACKS: readonly RulePack[] = [AU_NZ_RULE_PACK, UK_RULE_PACK, US_RULE_PACK];

/** Region of the packs by country, for sites whose own region no pack is for. */
const REGION_OF_COUNTRY: Readonly<Record<string, string>> = {
  AU: "au-nz",
  GB: "uk",
  NZ: "au-nz",
  US: "us",
};

export const builtInPack = (code: string): RulePack | undefined =>
  BUILT_IN_PACKS.find(({ id }) => id === code);

export function builtInPackFor(place: { region: string; country?: string }): RulePack | undefined {
  const byRegion = BUILT_IN_PACKS.find(({ region }) => region === place.region);
  if (byRegion || place.country === undefined) return byRegion;
  const region = REGION_OF_COUNTRY[place.country];
  return BUILT_IN_PACKS.find((pack) => pack.region === region);
}
