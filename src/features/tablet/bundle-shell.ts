import { readFile } from "node:fs/promises";
import Handlebars from "handlebars";
import { LANGUAGES } from "../../language/languages.ts";
import { say } from "../../language/say.ts";
import type { Icon } from "./bundle-icons.ts";
import type { Chunk } from "./bundle-metafile.ts";

const read = (name: string): Promise<string> =>
  readFile(new URL(`../../../templates/tablet/${name}`, import.meta.url), "utf8");

/** The page as it is first loaded: it holds no data, so anybody may have it. */
export async function shellHtml(chunks: readonly Chunk[], icons: readonly Icon[]): Promise<string> {
  const paths = (loaded: Chunk["loaded"]): string[] =>
    chunks.filter((chunk) => chunk.loaded === loaded).map(({ path }) => path);
  const template = Handlebars.compile(await read("shell.hbs"), { strict: true });
  return template({
    entries: paths("entry"),
    parts: paths("part"),
    styles: paths("style"),
    appleIcon: icons.find(({ purpose }) => purpose === "apple")?.path,
    languages: LANGUAGES.map((language) => ({
      language,
      noScript: say(language, "tablet.noScript"),
      link: say(language, "tablet.noScriptLink"),
    })),
    icon: icons.find(({ purpose }) => purpose === "any")?.path,
  });
}

/** Web application manifest (W3C), with the icons under the names they were given. */
export async function manifestText(icons: readonly Icon[]): Promise<string> {
  const manifest: object = JSON.parse(await read("manifest.json"));
  const listed = icons
    .filter(({ purpose }) => purpose !== "apple")
    .map(({ path, sizePx, purpose }) => ({
      src: path,
      sizes: `${sizePx}x${sizePx}`,
      type: "image/png",
      purpose,
    }));
  return JSON.stringify({ ...manifest, icons: listed });
}
