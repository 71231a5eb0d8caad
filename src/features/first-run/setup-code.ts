import { createHmac } from "node:crypto";

/**
 * What the machine's owner reads off its log and types once, so that whoever finds the address
 * first does not become the owner: derived from the installation's secret, so nothing is stored.
 */
export const setupCodeOf = (jwtSecret: string): string =>
  createHmac("sha256", jwtSecret).update("first firm").digest("hex").slice(0, 32).toUpperCase();
