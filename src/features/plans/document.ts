// A document is looked over before anything else reads it: what is too deep, too large or cannot be
// stored never reaches code that walks it. By a loop, because depth is what it guards against.
import { z } from "zod";
import { refuseFaults } from "../../web/fields.ts";

export const DOCUMENT_BYTES_MOST = 512 * 1024;
export const DOCUMENT_DEPTH_MOST = 32;

export interface DocumentFault {
  /** Members and places from the document to the fault. */
  path: (string | number)[];
  fault: string;
}

/** The first reason why the document cannot be kept; undefined when it can. */
export function documentFault(document: unknown): DocumentFault | undefined {
  if (typeof document !== "object" || document === null || Array.isArray(document)) {
    return { path: [], fault: "must be a JSON object" };
  }
  const waiting: { value: unknown; path: (string | number)[] }[] = [{ value: document, path: [] }];
  for (let place = waiting.pop(); place; place = waiting.pop()) {
    const { value, path } = place;
    const fault = valueFault(value, path.length);
    if (fault) return { path, fault };
    for (const [name, member] of membersOf(value)) {
      waiting.push({ value: member, path: [...path, name] });
    }
  }
  const bytes = Buffer.byteLength(JSON.stringify(document));
  if (bytes <= DOCUMENT_BYTES_MOST) return undefined;
  return {
    path: [],
    fault: `must be at most ${DOCUMENT_BYTES_MOST} bytes of JSON; it is ${bytes}`,
  };
}

function valueFault(value: unknown, depth: number): string | undefined {
  if (typeof value === "number" && !Number.isFinite(value)) return "is too large a number";
  const isContainer = typeof value === "object" && value !== null;
  if (isContainer && depth >= DOCUMENT_DEPTH_MOST) {
    return `lies more than ${DOCUMENT_DEPTH_MOST} levels deep`;
  }
  return undefined;
}

function membersOf(value: unknown): Iterable<[string | number, unknown]> {
  if (Array.isArray(value)) return value.entries();
  return typeof value === "object" && value !== null ? Object.entries(value) : [];
}

/** A plan document as it is sent: any JSON object that can be kept; the plan is checked later. */
export const PlanDocument = z
  .record(z.string(), z.unknown())
  .superRefine((document, context) => {
    const found = documentFault(document);
    if (found) context.addIssue({ code: "custom", path: found.path, message: found.fault });
    else refuseFaults(() => "many")(document, context);
  })
  .describe(
    "a plan/1 document (GET /api/v1/plans/schema): at most 512 KiB and 32 levels deep. Kept by " +
      "its meaning: the order of members and doubled members are not kept.",
  );
