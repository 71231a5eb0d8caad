import type { DeliveryRow } from "./delivery-store.ts";
import type { EndpointRow } from "./store.ts";

export const shownEndpoint = (row: EndpointRow) => ({
  ...{ id: row.id, url: row.url, kinds: row.kinds, version: row.version },
  state: row.state as "active" | "disabled",
  failingSince: row.failingSince?.toISOString() ?? null,
  createdAt: row.createdAt.toISOString(),
});

export const shownDelivery = ({ body: _body, firmId: _firm, ...row }: DeliveryRow) => ({
  ...row,
  state: row.state as "waiting" | "delivered" | "failed",
  nextAt: row.nextAt.toISOString(),
  createdAt: row.createdAt.toISOString(),
  deliveredAt: row.deliveredAt?.toISOString() ?? null,
});
