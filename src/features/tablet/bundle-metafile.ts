import type { Metafile, OutputFile } from "esbuild";
import { packedOf } from "../../web/bundle-file.ts";

export interface Chunk {
  /** Its address on the server. */
  path: string;
  bytes: Uint8Array;
  packedBytes: number;
  /** entry: loaded by the shell. part: before the entry runs. on-demand: when asked for. */
  loaded: "entry" | "part" | "style" | "on-demand";
}

const MAIN = "src/tablet/main.ts";

/** What the bundler made, and when the page loads each. */
export async function readChunks(
  metafile: Metafile,
  outputs: readonly OutputFile[],
  projectFolder: string,
): Promise<Chunk[]> {
  const parts = partsOf(metafile);
  return Promise.all(
    outputs.map(async ({ path, contents }) => {
      const name = path.slice(projectFolder.length).replaceAll("\\", "/");
      const { length } = await packedOf(contents);
      const loaded = loadedWhen(metafile, name, parts);
      return { path: `/${name}`, bytes: contents, packedBytes: length, loaded };
    }),
  );
}

function loadedWhen(metafile: Metafile, name: string, parts: Set<string>): Chunk["loaded"] {
  if (name.endsWith(".css")) return "style";
  if (metafile.outputs[name]?.entryPoint === MAIN) return "entry";
  return parts.has(name) ? "part" : "on-demand";
}

/** What the entry imports before it runs, and what that imports. */
function partsOf({ outputs }: Metafile): Set<string> {
  const parts = new Set<string>();
  const follow = (name: string): void => {
    for (const { path, kind } of outputs[name]?.imports ?? []) {
      if (kind !== "import-statement" || parts.has(path)) continue;
      parts.add(path);
      follow(path);
    }
  };
  const entry = Object.keys(outputs).find((name) => outputs[name]?.entryPoint === MAIN);
  if (entry === undefined) throw new Error("the bundler made no entry");
  follow(entry);
  return parts;
}
