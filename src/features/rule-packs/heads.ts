import type { FirmTransaction } from "../../db/scope.ts";
import type { RulePack } from "../../domain/siting/rule-pack.ts";
import { BUILT_IN_PACKS } from "./built-in.ts";
import { listPackHeads } from "./store.ts";

/** Those that come with the product and the firm's own, in the order of their names. */
export async function allPackHeads(tx: FirmTransaction, region?: string) {
  const own = await listPackHeads(tx);
  return [...BUILT_IN_PACKS.map(builtInHead), ...own.map(ownHead)]
    .filter((head) => region === undefined || head.region === region)
    .sort((a, b) => (a.id < b.id ? -1 : 1));
}

const builtInHead = ({ id, region, title }: RulePack) => ({
  ...{ id, region, title },
  builtIn: true,
  version: null,
});

type Head = Awaited<ReturnType<typeof listPackHeads>>[number];

const ownHead = ({ code, region, title, version }: Head) => ({
  ...{ id: code, region, title },
  builtIn: false,
  version,
});
