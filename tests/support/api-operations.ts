// Every operation of the OpenAPI document, as the running app describes it: a new route is among
// them by itself.
import type { App } from "../../src/web/feature.ts";

export interface JsonSchema {
  [keyword: string]: unknown;
}

export interface Parameter {
  name: string;
  in: "path" | "query" | "header";
  required: boolean;
  schema: JsonSchema;
}

export interface Operation {
  id: string;
  method: "get" | "post" | "put" | "patch" | "delete" | "head";
  path: string;
  parameters: Parameter[];
  /** The body's content type and schema, the first that is offered. */
  body?: { type: string; schema: JsonSchema };
  /** By status: the schemas of the bodies by content type. */
  responses: Record<string, Record<string, JsonSchema>>;
}

interface Described {
  operationId: string;
  parameters?: Parameter[];
  requestBody?: { content: Record<string, { schema?: JsonSchema }> };
  responses: Record<string, { content?: Record<string, { schema?: JsonSchema }> }>;
}

export interface Api {
  operations: Operation[];
  /** Shared schemas by their reference ("#/components/schemas/Site"). */
  shared: Map<string, JsonSchema>;
}

export function describedApi(app: App): Api {
  const document = app.swagger() as unknown as {
    paths: Record<string, Record<string, Described>>;
    components: { schemas?: Record<string, JsonSchema> };
  };
  const operations = Object.entries(document.paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, described]) => operationOf(path, method, described)),
  );
  const schemas = Object.entries(document.components.schemas ?? {});
  return {
    operations,
    shared: new Map(schemas.map(([name, schema]) => [`#/components/schemas/${name}`, schema])),
  };
}

function operationOf(path: string, method: string, described: Described): Operation {
  const { operationId: id, parameters = [], requestBody, responses } = described;
  const [body] = Object.entries(requestBody?.content ?? {});
  return {
    ...{ id, path, parameters, method: method as Operation["method"] },
    ...(body ? { body: { type: body[0], schema: body[1].schema ?? {} } } : {}),
    responses: Object.fromEntries(
      Object.entries(responses).map(([status, { content = {} }]) => [
        status,
        Object.fromEntries(
          Object.entries(content).map(([type, { schema = {} }]) => [type, schema]),
        ),
      ]),
    ),
  };
}

/** The word before a parameter of the path: "sites" for /api/v1/sites/{id}/survey. */
export function nounBefore(path: string, parameter: string): string {
  const parts = path.split("/");
  return parts[parts.indexOf(`{${parameter}}`) - 1] ?? "";
}
