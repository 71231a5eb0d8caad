// `npm run walkthrough [BASE_URL]`: plays the main job over HTTP and ends with 0 only if all went
// as told.
import { dirname } from "node:path";
import { fileURLToPath } from "node:url";
import { readConfig } from "../config.ts";
import { defaultDataFolder } from "../data-folder.ts";
import { readDemoSignIn } from "../demo/sign-in-file.ts";
import type { Account } from "./cast.ts";
import { startOwnServer } from "./own-server.ts";
import { playMainJob } from "./story.ts";

const given = process.argv[2] ?? process.env.BASE_URL;
const say = (step: string, text: string): void => console.log(`${step.padEnd(12)} ${text}`);

try {
  if (given) {
    await playMainJob(given, accountFor(given), say);
  } else {
    const own = await startOwnServer();
    try {
      await playMainJob(own.baseUrl, own.account, say);
    } finally {
      await own.stop();
    }
  }
  say("done", "everything came out as told");
} catch (error) {
  console.error(`\nSurprise: ${error instanceof Error ? error.message : String(error)}`);
  process.exitCode = 1;
}

/**
 * An owner of the service at hand: named by variables, or the demo's own where it runs on this
 * machine.
 */
function accountFor(baseUrl: string): Account {
  const { OWNER_EMAIL: email, OWNER_PASSWORD: password } = process.env;
  if (email && password) return { email, password };
  const projectFolder = dirname(dirname(dirname(fileURLToPath(import.meta.url))));
  const demo = readDemoSignIn(readConfig(process.env, defaultDataFolder(projectFolder)).dataFolder);
  if (demo) return { email: demo.ownerEmail, password: demo.password };
  throw new Error(`Set OWNER_EMAIL and OWNER_PASSWORD to an owner's sign-in at ${baseUrl}.`);
}
