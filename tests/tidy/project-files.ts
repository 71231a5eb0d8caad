import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

/** A text file of the project; `path` is relative to its root, with forward slashes. */
export type ProjectFile = { path: string; text: string };

/**
 * Every text file that is the project's own: what .gitignore leaves out is left out here too. It is
 * read without git, so that an unpacked archive is checked like a clone.
 */
export function readProjectFiles(root: string): ProjectFile[] {
  const ignored = ignoreRule(readFileSync(join(root, ".gitignore"), "utf8"));
  const files: ProjectFile[] = [];
  const visit = (folder: string) => {
    for (const entry of readdirSync(join(root, folder), { withFileTypes: true })) {
      const path = folder === "" ? entry.name : `${folder}/${entry.name}`;
      if (entry.name === ".git" || ignored(path, entry.isDirectory())) continue;
      if (entry.isDirectory()) visit(path);
      else if (entry.isFile()) files.push(...textFile(root, path));
    }
  };
  visit("");
  return files;
}

function textFile(root: string, path: string): ProjectFile[] {
  const text = readFileSync(join(root, path), "utf8");
  return text.includes("\0") ? [] : [{ path, text }];
}

/**
 * The part of .gitignore's language that this project uses: `name/` (a folder anywhere), `a/b/`
 * (that folder), `*.end` (files so ending), `name` (a file or folder anywhere). Others throw.
 */
export function ignoreRule(text: string): (path: string, folder: boolean) => boolean {
  const lines = text.split("\n").map((line) => line.trim());
  const patterns = lines.filter((line) => line !== "" && !line.startsWith("#"));
  for (const pattern of patterns) {
    if (!/^(?:\*\.[\w.-]+|\/?[\w.@-]+(?:\/[\w.@-]+)*\/?)$/.test(pattern)) {
      throw new Error(`.gitignore: the tidy test cannot read "${pattern}"; teach it in ignoreRule`);
    }
  }
  return (path, folder) => patterns.some((pattern) => ignores(pattern, path, folder));
}

function ignores(pattern: string, path: string, folder: boolean): boolean {
  if (pattern.startsWith("*")) return path.endsWith(pattern.slice(1));
  if (pattern.endsWith("/") && !folder) return false;
  const name = pattern.replace(/\/$/, "");
  if (name.includes("/")) return path === name.replace(/^\//, "");
  return path === name || path.endsWith(`/${name}`);
}
