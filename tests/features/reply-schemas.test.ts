// What was taken under older rules is given out all the same: no schema of a reply judges a text
// anew, since a reply that fails its schema is a failure of ours.

import Fastify from "fastify";
import { expect, test } from "vitest";
import { readConfig } from "../../src/config.ts";
import { FEATURES } from "../../src/features.ts";
import type { App, Context } from "../../src/web/feature.ts";

// biome-ignore lint/suspicious/noExplicitAny: zod's own description of a schema
type Described = any;

/** Paths of texts with rules of ours, over all that a schema is made of. */
function judgedTexts(schema: Described, path: string, seen: Set<unknown>): string[] {
  if (seen.has(schema)) return [];
  seen.add(schema);
  const { type, shape, ...def } = schema._zod.def as Described;
  const own = (def.checks ?? []).some((check: Described) => check._zod.def.check === "custom");
  const inner = [
    ...Object.entries(shape ?? {}),
    ...["element", "innerType", "in", "out", "keyType", "valueType", "catchall"].flatMap((name) =>
      def[name]?._zod ? [["", def[name]]] : [],
    ),
    ...(def.options ?? []).map((option: Described) => ["", option]),
  ];
  return [
    ...(type === "string" && own ? [path] : []),
    ...inner.flatMap(([name, one]) => judgedTexts(one, name ? `${path}/${name}` : path, seen)),
  ];
}

// A plan's sample is none: it is made up by the program itself.
test("no reply's schema judges a text anew", async () => {
  const app = Fastify() as unknown as App;
  const faults = new Set<string>();
  let replies = 0;
  app.addHook("onRoute", ({ method, url, schema }) => {
    for (const [status, reply] of Object.entries((schema?.response ?? {}) as Described)) {
      if (!(reply as Described)._zod) continue;
      replies += 1;
      const found = url.endsWith("/sample") ? [] : judgedTexts(reply, "", new Set());
      for (const path of found) faults.add(`${method} ${url} ${status} ${path}`);
    }
  });
  const context = { config: readConfig({ DATA_DIR: ".data/tests" }, ".data/tests") } as Context;
  for (const feature of FEATURES) await feature(app, context);
  await app.close();
  expect([...faults]).toEqual([]);
  expect(replies).toBeGreaterThan(300);
});
