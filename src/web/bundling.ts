// Programs of pages are bundled by the server itself when they are first asked for, and kept in
// memory: there is no build step to forget, and what is served always fits this version.
import { fileURLToPath } from "node:url";
import { type BuildOptions, stop } from "esbuild";

export const PROJECT = fileURLToPath(new URL("../../", import.meta.url));

export const FOR_BROWSERS = {
  absWorkingDir: PROJECT,
  bundle: true,
  minify: true,
  write: false,
  metafile: true,
  platform: "browser",
  target: "es2022",
  logLevel: "silent",
  // Not read from the project's file, which a server's image does not have.
  tsconfigRaw: { compilerOptions: { target: "es2022", verbatimModuleSyntax: true } },
} as const satisfies BuildOptions;

let bundling = 0;

/** The bundler is a process of its own; whoever is last to bundle ends it. */
export async function whileBundling<Made>(work: () => Promise<Made>): Promise<Made> {
  bundling += 1;
  try {
    return await work();
  } finally {
    bundling -= 1;
    if (bundling === 0) await stop();
  }
}

/** Makes it once a process; after a failure the next call tries again. */
export function madeOnce<Made>(make: () => Promise<Made>): () => Promise<Made> {
  let kept: Promise<Made> | undefined;
  return () => {
    kept ??= make().catch((error: unknown) => {
      kept = undefined;
      throw error;
    });
    return kept;
  };
}
