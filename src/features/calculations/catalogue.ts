import { z } from "zod";
import { CALCULATIONS } from "../../domain/electrical/catalogue.ts";
import { MECHANICAL_CALCULATIONS } from "../../domain/mechanical/catalogue.ts";

/** What both catalogues share: a name, an input schema, a computation that shows its working. */
export interface ListedCalculation {
  name: string;
  title: string;
  input: z.ZodType;
  example: unknown;
  compute(input: never): unknown;
}

const ALL = [...CALCULATIONS, ...MECHANICAL_CALCULATIONS] as readonly ListedCalculation[];
const BY_NAME = new Map(ALL.map((calculation) => [calculation.name, calculation]));

export const findCalculation = (name: string): ListedCalculation | undefined => BY_NAME.get(name);

/** The list as it is sent: schemas are turned into JSON Schema once. */
export const LISTED = ALL.map(({ name, title, input, example }) => ({
  name,
  title,
  input: z.toJSONSchema(input, { io: "input", unrepresentable: "any" }) as Record<string, unknown>,
  example: example as Record<string, unknown>,
}));
