import { z } from "zod";
import { PROBLEMS } from "../errors.ts";

export const ProblemSchema = z
  .object({
    type: z.string().describe("address of the page that explains this problem"),
    title: z.string(),
    status: z.number().int(),
    detail: z.string().describe("what is wrong, where, and the way out"),
    instance: z.string().describe("id of the request, for the operator"),
    errors: z
      .array(z.object({ pointer: z.string(), detail: z.string() }))
      .optional()
      .describe("input errors: JSON pointer of each bad field"),
  })
  .catchall(z.unknown())
  .meta({ id: "Problem", description: "RFC 9457 problem details" });

type Status = (typeof PROBLEMS)[keyof typeof PROBLEMS]["status"];

const codesOf = (status: number): string[] =>
  Object.entries(PROBLEMS)
    .filter(([, problem]) => problem.status === status)
    .map(([code]) => code);

interface ProblemResponse {
  description: string;
  content: { "application/problem+json": { schema: typeof ProblemSchema } };
}

/** The responses a route may refuse with, as its OpenAPI document shows them. */
export function problems(...statuses: Status[]): Record<Status, ProblemResponse> {
  const entries = statuses.map((status): [Status, ProblemResponse] => [
    status,
    {
      description: `Refused: ${codesOf(status).join(", ")}`,
      content: { "application/problem+json": { schema: ProblemSchema } },
    },
  ]);
  return Object.fromEntries(entries) as Record<Status, ProblemResponse>;
}

export const noBody = () => z.undefined().describe("Done; nothing to say");
