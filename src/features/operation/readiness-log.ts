// A probe asks every few seconds: what it finds is told when it changes, not each time.
import type { FastifyBaseLogger } from "fastify";
import type { NotReady } from "./readiness.ts";

export function tellChanges(log: FastifyBaseLogger): (reasons: readonly NotReady[]) => void {
  let told = "";
  return (reasons) => {
    const checks = reasons.map(({ check }) => check).join(", ");
    if (checks === told) return;
    told = checks;
    if (checks === "") log.info("ready again");
    // Being stopped is what was asked for.
    else if (checks === "stopping") log.info({ reasons }, "not ready");
    else log.error({ reasons }, "not ready");
  };
}
