// `npm run bench`: every budget, each bench in a process of its own, one after the other, and what
// they found in one table. Give names to run some: `npm run bench -- requests start`.
import { fork } from "node:child_process";
import { once } from "node:events";
import { cpus } from "node:os";
import { fileURLToPath } from "node:url";
import type { Row } from "./row.ts";

const BENCHES: Record<string, [file: string, ...args: string[]]> = {
  requests: ["requests.ts"],
  fleet: ["fleet.ts"],
  evidence: ["evidence.ts"],
  rounds: ["rounds.ts"],
  tablet: ["tablet.ts"],
  pages: ["pages.ts"],
  start: ["start.ts"],
};

const named = process.argv.slice(2);
const strange = named.find((name) => !Object.hasOwn(BENCHES, name));
if (strange) {
  console.error(`There is no bench ${strange}. There are: ${Object.keys(BENCHES).join(", ")}.`);
  process.exit(2);
}
const rows: Row[] = [];
const failed: string[] = [];
for (const [name, [file, ...args]] of Object.entries(BENCHES)) {
  if (named.length > 0 && !named.includes(name)) continue;
  console.log(`\n== ${name}`);
  const child = fork(fileURLToPath(new URL(file, import.meta.url)), args);
  child.on("message", (message) => rows.push(message as Row));
  const [code] = await once(child, "exit");
  if (code !== 0) failed.push(name);
}
console.log(`\nNode ${process.version}, ${cpus().length} processors\n`);
console.log("| work | ours | baseline in the same run | ratio | aim |");
console.log("| --- | --- | --- | --- | --- |");
for (const { work, ours, baseline, ratio, aim } of rows) {
  console.log(`| ${work} | ${ours} | ${baseline} | ${ratio} | ${aim} |`);
}
if (failed.length > 0) {
  console.error(`Not finished: ${failed.join(", ")}.`);
  process.exit(1);
}
