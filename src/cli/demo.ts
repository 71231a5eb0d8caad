import { parseArgs } from "node:util";
import { loadDemoOnce } from "../demo/offer-demo.ts";
import { withDatabase } from "./database.ts";

export async function loadDemoScenario(args: string[]): Promise<void> {
  parseArgs({ args, options: {}, strict: true });
  await withDatabase(async (db, config) => {
    for (const line of await loadDemoOnce(db, config, new Date())) console.log(line);
  });
}
