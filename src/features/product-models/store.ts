import { uuidv7 } from "uuidv7";
import { Prisma } from "../../db/generated/client.ts";
import type { FirmTransaction } from "../../db/scope.ts";
import type { ModelKitLine } from "../../domain/kit/line.ts";

export interface ProductModelFields {
  code: string;
  name: string;
  maker: string;
  kind: string;
  attributes: Record<string, string | number | boolean>;
  serialMask: string;
  serialCheck: string;
  firmwareScheme: string;
  switchMap?: object | null;
  kit?: readonly ModelKitLine[];
}

export interface ProductModelFilter {
  code?: string;
  kind?: string;
  after?: string;
  most: number;
}

export async function listProductModels(tx: FirmTransaction, filter: ProductModelFilter) {
  return tx.productModel.findMany({
    where: {
      firmId: tx.firmId,
      ...(filter.after ? { id: { gt: filter.after } } : {}),
      ...(filter.code ? { code: { contains: filter.code, mode: "insensitive" } } : {}),
      ...(filter.kind ? { kind: filter.kind } : {}),
    },
    orderBy: { id: "asc" },
    take: filter.most,
  });
}

export async function findProductModel(tx: FirmTransaction, id: string) {
  return tx.productModel.findUnique({ where: { firmId_id: { firmId: tx.firmId, id } } });
}

/** Undefined when another model has this code. */
export async function addProductModel(tx: FirmTransaction, fields: ProductModelFields) {
  const { switchMap, kit = [], ...rest } = fields;
  const json = { switchMap: switchMap ?? Prisma.DbNull, kit: [...kit] };
  const [row] = await tx.productModel.createManyAndReturn({
    data: [{ firmId: tx.firmId, id: uuidv7(), ...rest, ...json }],
    skipDuplicates: true,
  });
  return row;
}

/** Undefined when the row has another version by now. */
export async function editProductModel(
  tx: FirmTransaction,
  id: string,
  version: number,
  change: Partial<ProductModelFields>,
) {
  const { switchMap, kit, ...rest } = change;
  const map = switchMap === undefined ? {} : { switchMap: switchMap ?? Prisma.DbNull };
  const [row] = await tx.productModel.updateManyAndReturn({
    where: { firmId: tx.firmId, id, version },
    data: { ...rest, ...map, ...(kit ? { kit: [...kit] } : {}), version: { increment: 1 } },
  });
  return row;
}

/** Whether any unit or release of the model has a firmware level that was ordered by its scheme. */
export async function hasFirmwareLevels(tx: FirmTransaction, modelId: string): Promise<boolean> {
  const where = { firmId: tx.firmId, modelId };
  const unit = await tx.unit.findFirst({
    where: { ...where, firmwareLevel: { not: null } },
    select: { id: true },
  });
  if (unit) return true;
  return (await tx.firmwareRelease.findFirst({ where, select: { id: true } })) !== null;
}
