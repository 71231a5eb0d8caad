// Requirement: what is missing for tomorrow is known today. Stock goes to the visits in the order
// in which they begin, so that one reel is not counted for two vans.
import { thousandths } from "./fixings.ts";
import type { KitItem } from "./kit-item.ts";

export interface StockDemand {
  jobId: string;
  stockCode: string;
  amount: number;
}

export interface Shortfall extends StockDemand {
  /** What of the amount is there for this job. */
  there: number;
}

/**
 * What a job takes from stock, each code once, in its list's order.
 * @param people of the crew, for what each of them needs
 */
export function stockDemands(
  jobId: string,
  items: readonly KitItem[],
  people: number,
): StockDemand[] {
  const amounts = new Map<string, number>();
  for (const { stockCode, amount, perPerson } of items) {
    if (stockCode === undefined) continue;
    const wanted = perPerson ? amount * people : amount;
    amounts.set(stockCode, thousandths((amounts.get(stockCode) ?? 0) + wanted));
  }
  return [...amounts].map(([stockCode, amount]) => ({ jobId, stockCode, amount }));
}

/**
 * The demands that stock does not cover, the earlier ones served first.
 * @param stock amount by code; a code that is absent has none, and one below none counts as none
 */
export function shortfalls(
  demands: readonly StockDemand[],
  stock: ReadonlyMap<string, number>,
): Shortfall[] {
  const left = new Map(stock);
  return demands.flatMap((demand) => {
    const there = Math.min(demand.amount, Math.max(0, left.get(demand.stockCode) ?? 0));
    left.set(demand.stockCode, thousandths((left.get(demand.stockCode) ?? 0) - there));
    return there < demand.amount ? [{ ...demand, there: thousandths(there) }] : [];
  });
}
