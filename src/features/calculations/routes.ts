import type { z } from "zod";
import { type FieldError, Problem } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { problems } from "../../web/responses.ts";
import { findCalculation, LISTED, type ListedCalculation } from "./catalogue.ts";
import {
  CalculationInput,
  CalculationList,
  CalculationParams,
  CalculationResult,
} from "./schemas.ts";

const TAGS = ["Calculations"];

export const calculationRoutes: Feature = async (app) => {
  app.get("/api/v1/calculations", {
    schema: {
      operationId: "listCalculations",
      summary: "List the calculations with the inputs they take",
      tags: TAGS,
      response: { 200: CalculationList, ...problems(401, 403) },
    },
    handler: async () => ({ items: LISTED, next: null }),
  });

  app.post("/api/v1/calculations/:name", {
    schema: {
      operationId: "calculate",
      summary: "Work something out, with the working shown step by step",
      description:
        "Guidance: local codes, the maker's instructions and licensed practice prevail. A figure outside its table is refused, never extrapolated.",
      tags: TAGS,
      params: CalculationParams,
      body: CalculationInput,
      response: { 200: CalculationResult, ...problems(400, 401, 403, 404, 422) },
    },
    handler: async (request) => {
      const calculation = findCalculation(request.params.name);
      if (!calculation) {
        throw new Problem("not-found", `There is no calculation "${request.params.name}".`);
      }
      return compute(calculation, request.body);
    },
  });
};

type Result = z.infer<typeof CalculationResult>;
type Computed = ({ ok: true } & Result) | { ok: false; reason: string; problem: string };

function compute(calculation: ListedCalculation, body: unknown): Result {
  const input = calculation.input.safeParse(body);
  if (!input.success) {
    const errors = input.error.issues.map(
      (issue): FieldError => ({
        pointer: `/body${issue.path.map((part) => `/${String(part)}`).join("")}`,
        detail: issue.message,
      }),
    );
    throw new Problem(
      "invalid-input",
      errors.map((error) => `${error.pointer}: ${error.detail}`).join("; "),
      {
        errors,
      },
    );
  }
  const outcome = calculation.compute(input.data as never) as Computed;
  if (!outcome.ok) throw new Problem("invalid-input", outcome.problem, { reason: outcome.reason });
  return outcome;
}
