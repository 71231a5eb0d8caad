import { z } from "zod";

export const CalculationParams = z.object({
  name: z.string().max(80).describe("as the list of calculations gives it"),
});

/** Each calculation has an input of its own; its schema stands in the list. */
export const CalculationInput = z
  .record(z.string().max(60), z.unknown())
  .meta({ examples: [{ curve: "B", ratingA: 32 }] });

export const CalculationEntry = z
  .object({
    name: z.string(),
    title: z.string(),
    input: z
      .record(z.string(), z.unknown())
      .describe("JSON Schema of the input, with units and bounds"),
    example: z.record(z.string(), z.unknown()),
  })
  .meta({ id: "Calculation" });

export const CalculationList = z.object({ items: z.array(CalculationEntry), next: z.null() });

const Step = z.object({
  label: z.string(),
  formula: z.string(),
  substituted: z.string().describe("the formula with its numbers"),
  result: z.number(),
  unit: z.string(),
  source: z.string().optional(),
  tableRow: z.string().optional(),
});

export const CalculationResult = z
  .object({
    result: z.number(),
    unit: z.string(),
    steps: z.array(Step).describe("the working, step by step"),
    source: z.string(),
    edition: z.string(),
    notes: z.array(z.string()),
    caution: z.string(),
    passes: z.boolean().optional().describe("only where a reading was given and there is a limit"),
    margin: z.number().optional(),
    marginUnit: z.string().optional(),
  })
  .meta({ id: "CalculationResult" });
