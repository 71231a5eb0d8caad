// The generator needs no engine, but the Prisma CLI insists on finding one and would download it.
// Any executable satisfies it, so a machine without that download still generates its client.
import { execFileSync } from "node:child_process";
import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const cli = join(root, "node_modules", "prisma", "build", "index.js");

if (!existsSync(cli)) {
  console.error("prisma is not installed here (production install): the client was not generated");
} else {
  execFileSync(process.execPath, [cli, "generate"], {
    cwd: root,
    stdio: ["ignore", "ignore", "inherit"],
    env: {
      ...process.env,
      PRISMA_SCHEMA_ENGINE_BINARY: process.env.PRISMA_SCHEMA_ENGINE_BINARY ?? process.execPath,
      PRISMA_HIDE_UPDATE_MESSAGE: "1",
      CHECKPOINT_DISABLE: "1",
    },
  });
}
