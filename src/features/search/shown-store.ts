import type { FirmTransaction } from "../../db/scope.ts";
import type { FoundKind, FoundThing } from "./schemas.ts";

export type Shown = Omit<FoundThing, "exact">;

/** What there is to show of each of these, by its id; a merged one shows what it is part of now. */
export async function readShown(
  tx: FirmTransaction,
  kind: FoundKind,
  ids: string[],
): Promise<ReadonlyMap<string, Shown>> {
  if (ids.length === 0) return new Map();
  return new Map(await READERS[kind](tx, ids));
}

type Reader = (tx: FirmTransaction, ids: string[]) => Promise<[string, Shown][]>;

const shown = (
  of: Pick<Shown, "kind" | "id" | "name" | "title"> & Partial<Shown>,
  details: readonly (string | null | undefined)[],
): Shown => ({
  state: null,
  foundAs: null,
  ...of,
  detail: details.filter(Boolean).join(", "),
});

const customers: Reader = async (tx, ids) => {
  const rows = await tx.customer.findMany({
    where: { firmId: tx.firmId, id: { in: ids } },
    include: { mergedInto: true },
  });
  return rows.map((row) => {
    const of = row.mergedInto ?? row;
    const { id, reference: name, name: title, phone, email } = of;
    const state = of.archivedAt ? "archived" : null;
    const foundAs = row.mergedInto ? row.reference : null;
    return [row.id, shown({ kind: "customer", id, name, title, state, foundAs }, [phone, email])];
  });
};

const sites: Reader = async (tx, ids) => {
  const rows = await tx.site.findMany({
    where: { firmId: tx.firmId, id: { in: ids } },
    include: { customer: true, mergedInto: { include: { customer: true } } },
  });
  return rows.map((row) => {
    const of = row.mergedInto ?? row;
    const { id, reference: name, addressLine, locality, postcode, customer } = of;
    const title = [of.name, addressLine].filter(Boolean).join(", ");
    const state = of.archivedAt ? "archived" : null;
    const foundAs = row.mergedInto ? row.reference : null;
    const details = [`${locality} ${postcode}`, customer.name];
    return [row.id, shown({ kind: "site", id, name, title, state, foundAs }, details)];
  });
};

const jobs: Reader = async (tx, ids) => {
  const rows = await tx.job.findMany({
    where: { firmId: tx.firmId, id: { in: ids } },
    include: { site: { include: { customer: true } } },
  });
  return rows.map(({ id, reference: name, title, state, site }) => {
    const details = [site.addressLine, site.locality, site.customer.name];
    return [id, shown({ kind: "job", id, name, title, state }, details)];
  });
};

const units: Reader = async (tx, ids) => {
  const rows = await tx.unit.findMany({
    where: { firmId: tx.firmId, id: { in: ids } },
    include: { model: true, site: true },
  });
  return rows.map(({ id, serial: name, model, state, site }) => {
    const details = site ? [site.reference, site.addressLine, site.locality] : [];
    const title = `${model.code} ${model.name}`;
    return [id, shown({ kind: "unit", id, name, title, state }, details)];
  });
};

const instruments: Reader = async (tx, ids) => {
  const rows = await tx.instrument.findMany({ where: { firmId: tx.firmId, id: { in: ids } } });
  return rows.map(({ id, reference: name, name: title, serial, retiredOn }) => {
    const state = retiredOn ? "retired" : null;
    return [id, shown({ kind: "instrument", id, name, title, state }, [serial])];
  });
};

const people: Reader = async (tx, ids) => {
  const rows = await tx.person.findMany({ where: { firmId: tx.firmId, id: { in: ids } } });
  return rows.map(({ id, name, email, roles, active }) => {
    const state = active ? null : "inactive";
    return [id, shown({ kind: "person", id, name, title: email, state }, roles)];
  });
};

const READERS: Readonly<Record<FoundKind, Reader>> = {
  customer: customers,
  site: sites,
  job: jobs,
  unit: units,
  instrument: instruments,
  person: people,
};
