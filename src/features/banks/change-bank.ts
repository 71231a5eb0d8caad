import type { FirmTransaction } from "../../db/scope.ts";
import { notFound, Problem } from "../../errors.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import { editBank, findBank, isBankNameTaken } from "./store.ts";

export type KeptBank = NonNullable<Awaited<ReturnType<typeof findBank>>>;

export async function readBank(tx: FirmTransaction, id: string): Promise<KeptBank> {
  const row = await findBank(tx, id);
  if (!row) throw notFound("bank");
  return row;
}

export async function changeBank(
  tx: FirmTransaction,
  id: string,
  version: number,
  change: { name?: string | undefined; protocol?: string | null | undefined },
): Promise<KeptBank> {
  const bank = await readBank(tx, id);
  const { name } = change;
  if (name !== undefined && (await isBankNameTaken(tx, bank, name))) throw nameTaken(name);
  if (!(await editBank(tx, bank.id, version, change))) throw editedMeanwhile();
  return readBank(tx, bank.id);
}

export const nameTaken = (name: string): Problem =>
  new Problem("conflict", `The site has a bank named ${name} already. Choose another name.`);
