// The tablet's page, with all that it needs without a network.
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { build } from "esbuild";
import { type BundleFile, bundleFile, hashOf } from "../../web/bundle-file.ts";
import { FOR_BROWSERS, madeOnce, PROJECT, whileBundling } from "../../web/bundling.ts";
import { appIcons, type Icon } from "./bundle-icons.ts";
import { type Chunk, readChunks } from "./bundle-metafile.ts";
import { manifestText, shellHtml } from "./bundle-shell.ts";

export interface Bundle {
  /** Of everything in the shell: another shell, another version. */
  version: string;
  /** By address. */
  files: ReadonlyMap<string, BundleFile>;
  chunks: readonly Chunk[];
  /** Source files that went in, from the project's folder. */
  inputs: readonly string[];
}

const DECODER = "node_modules/zxing-wasm/dist/reader/zxing_reader.wasm";

export const tabletBundle = madeOnce(() => whileBundling(makeBundle));

async function makeBundle(): Promise<Bundle> {
  const page = await build({
    ...FOR_BROWSERS,
    entryPoints: { tablet: "src/tablet/main.ts", style: "src/tablet/styles/tablet.css" },
    format: "esm",
    splitting: true,
    outdir: "tablet/assets",
    entryNames: "[name]-[hash]",
    chunkNames: "[name]-[hash]",
  });
  const chunks = await readChunks(page.metafile, page.outputFiles, PROJECT);
  const shell = await shellFiles(chunks);
  const version = hashOf(shell.map(({ path, etag }) => `${path} ${etag}`).join("\n"));
  const worker = await workerFile(shell, version);
  const files = new Map([...shell, worker].map((file) => [file.path, file]));
  return { version, files, chunks, inputs: Object.keys(page.metafile.inputs) };
}

/** All that the page needs without a network, the scanner too: cellars have labels to be read. */
async function shellFiles(chunks: readonly Chunk[]): Promise<BundleFile[]> {
  const icons = await appIcons();
  const decoder = await readFile(join(PROJECT, DECODER));
  const html = await shellHtml(chunks, icons);
  const manifest = await manifestText(icons);
  return Promise.all([
    bundleFile("/tablet/", html, "revalidate"),
    bundleFile("/tablet/manifest.webmanifest", manifest, "revalidate"),
    bundleFile("/tablet/assets/zxing_reader.wasm", decoder, "revalidate"),
    ...chunks.map(({ path, bytes }) => bundleFile(path, bytes, "immutable")),
    ...icons.map(({ path, bytes }: Icon) => bundleFile(path, bytes, "immutable")),
  ]);
}

async function workerFile(shell: readonly BundleFile[], version: string): Promise<BundleFile> {
  const { outputFiles } = await build({
    ...FOR_BROWSERS,
    entryPoints: ["src/tablet/sw.ts"],
    format: "iife",
    outdir: "tablet",
    define: {
      __SHELL__: JSON.stringify(shell.map(({ path }) => path)),
      __VERSION__: JSON.stringify(version),
    },
  });
  const [output] = outputFiles;
  if (!output) throw new Error("the bundler made no worker");
  return bundleFile("/tablet/sw.js", output.contents, "revalidate");
}
