import type { FastifyRequest } from "fastify";
import { signedIn } from "./session.ts";

/** Whether whoever asks keeps the firm's records: customers, sites, instruments. */
export const keepsRecords = (request: FastifyRequest): boolean =>
  signedIn(request).roles.some((role) => role === "owner" || role === "office");

/** Whether whoever asks plans the work of others: visits, absences, qualifications. */
export const plansWork = (request: FastifyRequest): boolean =>
  keepsRecords(request) || signedIn(request).roles.includes("manager");
