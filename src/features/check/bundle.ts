import { build } from "esbuild";
import { type BundleFile, bundleFile } from "../../web/bundle-file.ts";
import { FOR_BROWSERS, madeOnce, PROJECT, whileBundling } from "../../web/bundling.ts";

/** The program that checks a bag beside the page. */
export const checkWorker = madeOnce(() => whileBundling(makeWorker));

async function makeWorker(): Promise<BundleFile> {
  const { outputFiles } = await build({
    ...FOR_BROWSERS,
    entryPoints: ["src/check/worker.ts"],
    format: "iife",
    outdir: "check/program",
    entryNames: "[name]-[hash]",
  });
  const [output] = outputFiles;
  if (!output) throw new Error("the bundler made no worker");
  const path = `/${output.path.slice(PROJECT.length).replaceAll("\\", "/")}`;
  return bundleFile(path, output.contents, "immutable");
}
